"""The vocabulary: a clean table, and a user's own words added to it."""

from collections import Counter
from pathlib import Path

import pytest

from buttonstudy.readings.blanks import blank_words
from buttonstudy.readings.wording import key
from buttonstudy.schemes import SchemeError, Term, fields, rows, vocabulary

TERM_FIELDS = [field.field for field in fields() if field.kind == "term"]

# A blank word that is also a field's own wording, and the term or state that it stands for there.
# Written out so that no blank becomes a term unnoticed.
MEANT = {
    ("hole_fill", "none"): "open",
    ("hole_fill", "nothing"): "open",
    ("hole_fill", "empty"): "open",
    ("hole_fill", "sealed"): "filled",
    ("back_finish", "none"): "bare",
    ("cover_condition", "absent"): "lost",
    ("cover_condition", "missing"): "lost",
    ("cover_condition", "lost"): "lost",
    ("cover_condition", "gone"): "lost",
    ("cover_condition", "destroyed"): "lost",
    ("cover_condition", "worn away"): "worn through",
    ("thread", "unidentified"): "thread",
}

# Terms that the study was built around: frameworks, fills and ways of drawing up (National Button
# Bulletin, May 1954, pp. 199-216; EB 1911; otherwise common practice, no source).
EXPECTED = [
    ("mould_material", "wood bone horn ivory pasteboard millboard papier-mâché leather cork metal"),
    ("mould_shape", "ring shell domed"),
    ("hole_fill", "open plugged wax pitch glue thread-crossed"),
    ("cover_cut", "circle square octagon"),
    ("cover_drawn_up", "pasted wound"),
    ("thread", "silk linen cotton wool worsted metal horsehair"),
    ("attachment", "catgut"),
]

EXPECTED_PHRASES = [
    ("mould_material", "vegetable ivory"),
    ("hole_fill", "padded over"),
    ("hole_fill", "sewn ornament"),
    ("hole_fill", "metal face"),
    ("hole_fill", "cloth patch"),
    ("hole_fill", "paper disc"),
    ("cover_cut", "square with trimmed corners"),
    ("cover_cut", "four triangles"),
    ("cover_drawn_up", "gathered on a running thread"),
    ("cover_drawn_up", "laced across"),
    ("cover_drawn_up", "folded and stitched"),
    ("cover_drawn_up", "pleated and tacked"),
    ("cover_drawn_up", "turned and tucked"),
    ("cover_drawn_up", "crimped in metal back"),
    ("attachment", "thread shank"),
    ("attachment", "sewn through"),
    ("attachment", "cloth tuft"),
    ("attachment", "metal loop shank"),
    ("attachment", "cone shank"),
    ("attachment", "drop loop"),
]


def test_every_row_has_a_definition_in_one_sentence_and_a_source() -> None:
    for row in rows("vocabulary"):
        assert row["field"] in TERM_FIELDS
        assert row["definition"].endswith("."), row["term"]
        assert ". " not in row["definition"], row["term"]
        assert row["source"], row["term"]


def test_every_field_of_terms_has_terms() -> None:
    assert all(len(vocabulary().terms(field)) >= 3 for field in TERM_FIELDS)


@pytest.mark.parametrize("field", TERM_FIELDS)
def test_no_wording_is_claimed_by_two_terms_of_a_field_or_twice_by_one(field: str) -> None:
    claims = [key(word) for term in vocabulary().wordings(field) for word in term.wordings]
    assert [claim for claim, times in Counter(claims).items() if times > 1] == []
    assert "" not in claims


def test_a_blank_is_a_term_only_where_it_is_meant_to_be() -> None:
    found = {
        (field, word): term.term
        for field in TERM_FIELDS
        for term in vocabulary().wordings(field)
        for word in term.wordings
        if key(word) in blank_words() and term.term != blank_words()[key(word)]
    }
    assert found == MEANT


@pytest.mark.parametrize("field", TERM_FIELDS)
def test_a_vaguer_term_is_a_term_of_the_field_and_leads_nowhere_round(field: str) -> None:
    vaguer = {term.term: term.vaguer for term in vocabulary().terms(field)}
    for term in vaguer:
        seen = [term]
        while vaguer[seen[-1]]:
            seen.append(vaguer[seen[-1]])
            assert seen[-1] in vaguer
            assert len(seen) == len(set(seen))


@pytest.mark.parametrize(("field", "terms"), EXPECTED)
def test_the_terms_of_the_trade_are_there(field: str, terms: str) -> None:
    assert set(terms.split()) <= {term.term for term in vocabulary().terms(field)}


@pytest.mark.parametrize(("field", "term"), EXPECTED_PHRASES)
def test_the_phrases_of_the_trade_are_there(field: str, term: str) -> None:
    assert vocabulary().term(field, term) is not None


def test_an_identifier_is_given_only_where_one_was_seen() -> None:
    # Art & Architecture Thesaurus: silk 300014072 was seen in published collection data.
    given = {(row["field"], row["term"], row["aat"]) for row in rows("vocabulary") if row["aat"]}
    assert given == {("cover_material", "silk", "300014072"), ("thread", "silk", "300014072")}


def test_a_users_table_adds_terms_and_wordings(tmp_path: Path) -> None:
    own = tmp_path / "words.csv"
    own.write_text(
        "field,term,synonyms,definition\n"
        "mould_material,slurrystone,grout|brass\n"
        "mould_material,bone,whitestuff,Bone as our survey means it.\n"
        "padding,absent,flat to the mould\n",
        encoding="utf-8",
    )
    words = vocabulary(own)
    assert words.terms("mould_material")[0] == Term(
        "mould_material",
        "slurrystone",
        ("grout", "brass"),
        "",
        "the user's own vocabulary, words.csv",
    )
    bone, kits = words.term("mould_material", "bone"), vocabulary().term("mould_material", "bone")
    assert bone is not None
    assert kits is not None
    assert bone.synonyms == ("whitestuff", *kits.synonyms)
    assert (bone.definition, bone.source) == ("Bone as our survey means it.", kits.source)
    assert "flat to the mould" in words.wordings("padding")[0].wordings
    assert {term.term for term in vocabulary().entries} < {term.term for term in words.entries}


def test_a_users_table_is_read_anew_each_time(tmp_path: Path) -> None:
    own = tmp_path / "words.csv"
    for term in ("slurrystone", "gritstone"):
        own.write_text(f"field,term\nmould_material,{term}\n", encoding="utf-8")
        assert vocabulary(own).terms("mould_material")[0].term == term


def test_synonyms_may_be_parted_by_semicolons_or_bars(tmp_path: Path) -> None:
    own = tmp_path / "words.csv"
    own.write_text("field,term,synonyms\npadding,moss,bog moss; peat|turf ;\n", encoding="utf-8")
    assert vocabulary(own).terms("padding")[0].synonyms == ("bog moss", "peat", "turf")


FAULTS = [
    (
        "mold,bone",
        'column field: "mold" is not a field that takes terms. Use: mould_material, mould_shape, ',
    ),
    ("padding,", 'column term: "" is empty. Fill it in, or take the row out.'),
    ("padding,hair; wool", 'column term: "hair; wool" holds ";" or "|". Give each term a row of'),
    (
        "padding,unclear",
        'column term: "unclear" is how the kit tells a blank. Take the row out, and ',
    ),
    ("padding,moss,peat; *", 'column synonyms: "peat; *" holds "*", which is no word. Take it'),
    (
        "padding,moss,peat\npadding,turf,sod; Peat",
        'row 3, column synonyms: "sod; Peat" holds "Peat", which also stands for moss. Leave it in',
    ),
    ("opened,ja", 'column term: "ja" is not how a button was left. Use: opened, partly opened, '),
    ("padding,moss,x,y,z,A12", 'column aat: "A12" is not an identifier. Write its digits only, or'),
    ("padding,moss\npadding,moss", 'row 3, column term: "moss" stands twice for padding. Join the'),
]


@pytest.mark.parametrize(("line", "message"), FAULTS)
def test_a_fault_in_a_users_table_is_told_by_row_and_column(
    line: str, message: str, tmp_path: Path
) -> None:
    own = tmp_path / "words.csv"
    own.write_text(f"field,term,synonyms,definition,source,aat\n{line}\n", encoding="utf-8")
    with pytest.raises(SchemeError) as told:
        vocabulary(own)
    assert message in str(told.value)
    assert str(told.value).startswith(str(own))
