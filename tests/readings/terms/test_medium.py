"""A museum's list of materials: where each piece goes.

The wordings are those of the Cooper Hewitt collection export (CC0); what they mean was read by
hand. Terms are the vocabulary's.
"""

import pytest

from buttonstudy.readings.terms.medium import MEDIUM_FIELDS, read_medium
from buttonstudy.schemes import vocabulary
from buttonstudy.schemes.tables import rows

READ = [
    ("Celluloid", "celluloid", "", ""),
    ("Silver, enamel", "silver", "", "enamel"),
    ("Enameled metal, steel beads", "metal", "", "beads; enamel"),
    ("Metal foil, silk, thread, paillettes (sequins)", "", "silk; thread", "foil; sequins"),
    ("Blackened, silvered, and gilt tin", "tinplate", "", "gilding"),
    ("cut steel, wood and black glass", "glass; steel; wood", "", "cut steel"),
    ("porcelain painted in color", "ceramic", "", "painting"),
    ("metal, plastic (cellulose nitrate)", "celluloid; metal", "", ""),
    ("bone, brass, tin, copper", "bone; brass; copper; tinplate", "", ""),
    ("Paper, silk, glass, copper", "copper; glass; paper", "silk", ""),
]


@pytest.mark.parametrize(("text", "mould", "cover", "work"), READ)
def test_each_piece_goes_to_mould_cover_or_decoration(text, mould, cover, work):
    reading = read_medium(text, vocabulary())
    assert ["; ".join(reading.terms(field)) for field in MEDIUM_FIELDS] == [mould, cover, work]
    assert not reading.doubts


@pytest.mark.parametrize("text", ["", "unknown", "not recorded", "n/a"])
def test_blanks_say_nothing(text):
    reading = read_medium(text, vocabulary())
    assert not any(reading.terms(field) for field in MEDIUM_FIELDS)


def test_what_is_not_known_is_told_gravely_only_where_nothing_else_was_read():
    nothing = read_medium("other", vocabulary()).doubts[0]
    beside = read_medium("Glass, thistledown", vocabulary()).doubts[0]
    assert nothing.says == '"other" names no known material or work.'
    assert beside.says == '"thistledown" names no known material or work.'
    assert (nothing.note, beside.note) == (False, True)


def test_the_exceptions_name_terms_of_the_vocabulary():
    known = {(row["field"], row["term"]) for row in rows("vocabulary")}
    assert {(row["field"], row["term"]) for row in rows("medium_terms")} <= known
    assert {row["taken"] for row in rows("medium_terms")} == {"no", "its own"}
