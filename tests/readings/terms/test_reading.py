"""Cells of construction terms. What a wording means is common practice, no source, unless named."""

from dataclasses import replace

import pytest

from buttonstudy.readings.terms.reading import TermReading, read_terms
from buttonstudy.schemes import vocabulary


def read(field: str, text: str) -> TermReading:
    return read_terms(text, field, vocabulary())


# Field, wording, terms: read without a doubt.
CLEAR = [
    ("mould_material", "bone", "bone"),
    ("mould_material", "BONE, TURNED", "bone"),
    ("mould_material", "bone and wood", "bone|wood"),
    ("mould_material", "wood/bone", "bone|wood"),
    ("mould_material", "wood + bone; horn", "bone|horn|wood"),
    ("mould_material", "turned wood, dark", "wood"),
    ("mould_material", "boxwood", "wood"),
    ("mould_material", "veg. ivory (corozo)", "vegetable ivory"),
    ("mould_material", "papier mache", "papier-mâché"),
    ("mould_material", "cardboard disk with tin shell", "pasteboard|tinplate"),
    ("mould_material", "metal shell, pasteboard", "metal|pasteboard"),
    ("mould_material", "Brass (metal)", "brass"),
    ("mould_material", "metal, wood", "metal|wood"),
    ("mould_material", "wood, not bone", "wood"),
    ("mould_material", "not bone but wood", "wood"),
    ("mould_material", "ivory-coloured plastic", "plastic"),
    ("mould_material", "silk over wood", "wood"),
    ("mould_material", "painted wood", "wood"),
    ("mould_material", "wood, unpierced", "wood"),
    ("mould_material", "Mould: bone", "bone"),
    ("mould_material", "n/a; bone", "bone"),
    ("mould_shape", "flat disk", "flat disc"),
    ("mould_shape", "domed, flat back", "domed"),
    ("mould_hole", "yes", "pierced"),
    ("mould_hole", "Y", "pierced"),
    ("mould_hole", "x", "pierced"),
    ("mould_hole", "✓", "pierced"),
    ("mould_hole", "2 holes", "several holes"),
    ("mould_hole", "2", "several holes"),
    ("mould_hole", "yes - slightly off centre", "off-centre hole"),
    ("hole_fill", "open", "open"),
    ("hole_fill", "none", "open"),
    ("hole_fill", "left open", "open"),
    ("hole_fill", "not filled", "open"),
    ("hole_fill", "plugged with wax", "wax"),
    ("hole_fill", "filled with linen thread", "thread-filled"),
    ("hole_fill", "wad of paper and glue", "glue|paper disc"),
    ("hole_fill", "padding of wool over the hole", "padded over"),
    ("hole_fill", "threads crossing", "thread-crossed"),
    ("padding", "yes", "padding"),
    ("padding", "wool wadding", "wool"),
    ("padding", "thin layer of cotton wool", "wadding"),
    ("padding", "padding of horse hair", "hair"),
    ("padding", "linen disc under cover", "cloth"),
    ("cover_material", "black silk satin", "satin|silk"),
    ("cover_material", "linen, silk over", "linen|silk"),
    ("cover_material", "covered with silk", "silk"),
    ("cover_material", "silk (worn)", "silk"),
    ("cover_material", "linen sewn with silk", "linen"),
    ("cover_material", "gold thread on silk", "metal thread|silk"),
    ("cover_material", "artificial silk", "rayon"),
    ("cover_material", "same cloth as the coat", "garment cloth"),
    ("cover_colour", "dark grey", "grey"),
    ("cover_colour", "gray", "grey"),
    ("cover_colour", "ivory coloured", "cream"),
    ("cover_colour", "faded red", "red"),
    ("cover_colour", "brown/black", "black|brown"),
    ("cover_thickness", "quite thin", "thin"),
    ("cover_cut", "roughly circular", "circle"),
    ("cover_cut", "square, corners trimmed off", "square with trimmed corners"),
    ("cover_drawn_up", "gathered", "gathered on a running thread"),
    ("cover_drawn_up", "gathered on a thread", "gathered on a running thread"),
    ("cover_drawn_up", "crimped, laced across", "crimped in metal back|laced across"),
    ("cover_drawn_up", "folded over and stitched down", "folded and stitched"),
    ("cover_drawn_up", "glued", "pasted"),
    ("thread", "2-ply linen, undyed", "linen"),
    ("thread", "sewn with linen thread", "linen"),
    ("back_finish", "japanned iron back, rusty", "japanned metal"),
    ("back_finish", "linen disc sewn on", "cloth back"),
    ("attachment", "no shank, sewn through", "sewn through"),
    ("attachment", "loop of brass wire", "metal loop shank"),
    ("attachment", "flexible shank of canvas", "cloth tuft"),
    ("decoration", "plain silk with embroidery", "embroidery"),
    ("decoration", "embroidered with gold thread and spangles", "metal thread|sequins"),
    ("cover_condition", "good, slightly faded", "faded|sound"),
    ("cover_condition", "torn at edge, mould showing", "split|worn through"),
    ("cover_condition", "missing", "lost"),
]  # fmt: skip

# Field, wording, state: read without a doubt.
STATES = [
    ("mould_hole", "no", "absent"),
    ("mould_hole", "unpierced", "absent"),
    ("mould_hole", "solid", "absent"),
    ("mould_hole", "no hole visible", "unclear"),
    ("mould_hole", "hole not seen", "not examined"),
    ("mould_hole", "can't see, cover intact", "not examined"),
    ("hole_fill", "no hole", "absent"),
    ("padding", "none", "absent"),
    ("padding", "no padding", "absent"),
    ("padding", "no padding or interlining", "absent"),
    ("padding", "padding: none", "absent"),
    ("padding", "0", "absent"),
    ("padding", "none visible", "unclear"),
    ("padding", "no padding?", "unclear"),
    ("padding", "not opened", "not examined"),
    ("padding", "Padding: not opened", "not examined"),
    ("decoration", "plain", "absent"),
    ("decoration", "not embroidered", "absent"),
    ("attachment", "shank missing", "unclear"),
    ("attachment", "shank off", "unclear"),
    ("thread", "thread unknown", "unclear"),
    ("cover_material", "?", "unclear"),
    ("cover_material", "-", "not recorded"),
    ("cover_material", "", "not recorded"),
]

# Field, wording, terms, state, unknown, each doubt's kind.
DOUBTED = [
    ("cover_material", "silk?", "silk", "", "", "term-uncertain"),
    ("mould_material", "prob. bone", "bone", "", "", "term-uncertain"),
    ("mould_material", "looks like bone", "bone", "", "", "term-uncertain"),
    ("mould_material", "bone or ivory", "", "unclear", "", "term-either"),
    ("mould_material", "wood, bone or horn", "", "unclear", "", "term-either"),
    ("mould_material", "metal shell; bone or horn", "metal", "", "", "term-either"),
    ("mould_material", "bone or slurrystone", "", "unclear", "", "term-either"),
    ("mould_material", "not bone", "", "unclear", "", "term-negated"),
    ("mould_material", "neither wood nor bone", "", "unclear", "", "term-negated"),
    ("cover_material", "remains of silk", "silk", "", "", "term-qualified"),
    ("cover_colour", "black, faded to brown", "black|brown", "", "", "term-qualified"),
    ("mould_material", "imitation ivory", "", "", "imitation ivory", "term-unknown"),
    ("mould_material", "bone-like", "", "", "bone-like", "term-unknown"),
    ("mould_material", "slurrystone", "", "", "slurrystone", "term-unknown"),
    ("mould_material", "bone and slurrystone", "bone", "", "slurrystone", "term-unknown"),
    ("mould_material", "Gritstone (blue), slurry", "", "", "Gritstone (blue)|slurry",
     "term-unknown|term-unknown"),
    ("mould_material", "probably gritstone", "", "", "gritstone",
     "term-unknown|term-uncertain"),
    ("mould_material", "flat", "", "", "flat", "term-unknown"),
    ("mould_material", "=1+1", "", "", "=1|1", "term-unknown|term-unknown"),
    ("mould_material", "not opened - borrowed from Ann", "", "not examined", "", "term-more-words"),
    ("cover_material", "silk from a lady's gown", "silk", "", "", "term-more-words"),
    ("mould_material", "can't tell, maybe bone", "", "unclear", "", "term-beside-blank"),
    ("mould_material", "not opened but wood visible", "wood", "", "", "term-beside-blank"),
    ("padding", "none, linen straight on wood", "", "absent", "", "term-beside-blank"),
    ("padding", "nothing but a scrap of felt", "felt", "", "", "term-beside-blank"),
    ("padding", "slurry, knotted thread or wood", "", "unclear", "",
     "term-either|term-more-words"),
    ("padding", "none; not opened", "", "not examined", "", "term-two-states"),
    ("padding", "ditto", "", "not recorded", "", "term-elsewhere"),
    ("padding", '"', "", "not recorded", "", "term-elsewhere"),
    ("padding", "see photo", "", "not recorded", "", "term-elsewhere"),
    ("cover_material", "same", "", "not recorded", "", "term-elsewhere"),
    ("cover_material", "idem", "", "not recorded", "", "term-elsewhere"),
    ("cover_material", "do.", "", "not recorded", "", "term-elsewhere"),
    ("mould_material", "x", "", "not recorded", "", "term-names-nothing"),
    ("mould_material", "✓", "", "not recorded", "", "term-names-nothing"),
    ("cover_material", "silk, green (arsenic??)", "silk", "", "",
     "term-uncertain|term-more-words"),
    ("mould_hole", "one central, 2mm", "pierced", "", "", "term-size-beside"),
    ("mould_hole", "pierced 1.5 mm", "pierced", "", "", "term-size-beside"),
    ("cover_material", "silk, arsenic", "silk", "", "", "term-more-words"),
    ("cover_material", "arsenic?", "", "not recorded", "", "term-names-nothing"),
    ("cover_material", "Seide", "", "", "Seide", "term-unknown"),
    ("attachment", "loop", "", "", "loop", "term-unknown"),
    ("mould_material", "The mould is of turned beech with tool marks, and the cloth is drawn "
     "together", "cloth|wood", "", "", "term-prose"),
]  # fmt: skip

MESSAGES = [
    (
        "mould_material", "xylonyte",
        '"xylonyte" is not a known term for Mould material; it is kept as written.',
        "Is celluloid meant? Then write that; otherwise add it to your own vocabulary table.",
    ),
    (
        "mould_material", "flat",
        '"flat" is not a known term for Mould material; it is kept as written. '
        "It is a term for Mould shape.",
        "Add it to your own vocabulary table.",
    ),
    (
        "mould_material", "bone-like",
        '"bone-like" is not a known term for Mould material; it is kept as written.',
        "Is bone meant? Then write that; otherwise add it to your own vocabulary table.",
    ),
    (
        "cover_material", "linan",
        '"linan" is not a known term for Cover material; it is kept as written.',
        "Is linen meant? Then write that; otherwise add it to your own vocabulary table.",
    ),
    (
        "mould_material", "wodd",
        '"wodd" is not a known term for Mould material; it is kept as written.',
        "Is wood meant? Then write that; otherwise add it to your own vocabulary table.",
    ),
    (
        "mould_material", "bnoe",
        '"bnoe" is not a known term for Mould material; it is kept as written.',
        "Is bone meant? Then write that; otherwise add it to your own vocabulary table.",
    ),
    (
        "cover_material", "Seide",
        '"Seide" is not a known term for Cover material; it is kept as written.',
        "Add it to your own vocabulary table.",
    ),
    (
        "back_finish", "cord",
        '"cord" is not a known term for Back finish; it is kept as written. '
        "It is a term for Mould material.",
        "Add it to your own vocabulary table.",
    ),
    (
        "mould_hole", '3/32"',
        '"3/32"" is the hole\'s size and not its kind, so nothing was read here.',
        "Put sizes into a column named Hole diameter; here write pierced, several holes or absent.",
    ),
    (
        "cover_material", "silk?",
        '"silk?" is marked as uncertain; it is read as silk.',
        'Take the mark of doubt away, or write "unclear" if it should not be counted.',
    ),
    (
        "mould_material", "bone or  ivory",
        '"bone or ivory" names one or the other; it is read as unclear.',
        'Name the right one, or join them with "and" if both are there.',
    ),
    (
        "mould_material", "not bone",
        '"not bone" says what it is not; it is read as unclear.',
        'Write what it is, or "absent" or "not examined".',
    ),
    (
        "cover_material", "remains of silk",
        '"remains of silk" may say something other than silk.',
        "Check that this is right; the wording is kept.",
    ),
    (
        "padding", "not opened - borrowed from Ann",
        '"borrowed … Ann" was passed over; the cell is read as not examined.',
        "Nothing needs doing if that is right; the wording is kept.",
    ),
    (
        "cover_material", "glittery silk from a lady's gown",
        "\"glittery … lady's gown\" was passed over; the cell is read as silk.",
        "Nothing needs doing if that is right; the wording is kept.",
    ),
    (
        "padding", "felt, not opened",
        '"felt, not opened" names a term and also a blank; it is read as felt.',
        "Leave one of them, and move the rest to the notes.",
    ),
    (
        "padding", "none; not opened",
        '"none; not opened" names two kinds of blank; it is read as not examined.',
        "Leave the one that is right.",
    ),
    (
        "padding", "as above",
        '"as above" points to another place, so nothing was read here.',
        "Write the words themselves into this cell.",
    ),
]  # fmt: skip


def parted(text: str) -> tuple[str, ...]:
    return tuple(text.split("|")) if text else ()


@pytest.mark.parametrize(("field", "text", "terms"), CLEAR)
def test_a_clear_wording_is_read_as_its_terms(field: str, text: str, terms: str) -> None:
    assert replace(read(field, text), beside=()) == TermReading(text, parted(terms))


@pytest.mark.parametrize(("field", "text", "state"), STATES)
def test_a_blank_is_read_as_its_state(field: str, text: str, state: str) -> None:
    assert read(field, text) == TermReading(text, state=state)


@pytest.mark.parametrize(("field", "text", "terms", "state", "unknown", "kinds"), DOUBTED)
def test_a_doubtful_wording_is_read_with_care_and_told(
    field: str, text: str, terms: str, state: str, unknown: str, kinds: str
) -> None:
    reading = read(field, text)
    assert (reading.terms, reading.state, reading.unknown) == (
        parted(terms),
        state,
        parted(unknown),
    )
    assert tuple(doubt.kind for doubt in reading.doubts) == parted(kinds)


@pytest.mark.parametrize(("field", "text", "says", "remedy"), MESSAGES)
def test_a_doubt_says_what_was_read_and_what_to_do(
    field: str, text: str, says: str, remedy: str
) -> None:
    (doubt,) = read(field, text).doubts
    assert (doubt.says, doubt.remedy) == (says, remedy)


def test_only_a_cell_from_which_nothing_is_read_is_fatal() -> None:
    assert all(
        doubt.fatal == (doubt.kind in ("term-elsewhere", "term-names-nothing"))
        for field, text, *_ in DOUBTED
        for doubt in read(field, text).doubts
    )


def test_a_cell_too_long_for_terms_is_told_and_not_read() -> None:
    # A spreadsheet cell holds up to 32,767 characters (Excel specifications and limits).
    reading = read("mould_material", "bone or slurry " * 2000)
    (doubt,) = reading.doubts
    assert (reading.state, reading.terms, reading.unknown) == ("not recorded", (), ())
    assert (doubt.kind, doubt.fatal) == ("term-too-long", True)
    assert doubt.says.endswith("is too long to be read as terms, so nothing was read here.")


BESIDE = [
    ("silk & spangles", ("spangles",)),
    ("Black silk", ("Black",)),
    ("silk, green", ("green",)),
    ("Thread (Dorset type)", ("Dorset",)),
    ("silk, arsenic green", ("arsenic green",)),
    ("silk", ()),
]


@pytest.mark.parametrize(("text", "beside"), BESIDE)
def test_words_for_other_features_beside_a_term_are_given_and_not_told(
    text: str, beside: tuple[str, ...]
) -> None:
    reading = read("cover_material", text)
    assert (reading.beside, reading.doubts) == (beside, ())


def test_words_passed_over_are_a_note_and_nothing_to_confirm() -> None:
    (doubt,) = read("padding", "not opened - borrowed from Ann").doubts
    assert doubt.note


def test_a_long_wording_is_shortened_in_its_doubt() -> None:
    (doubt,) = read("mould_material", "slurry " * 40).doubts
    assert doubt.says.startswith('"slurry slurry')
    assert '…" is not a known term' in doubt.says
    assert len(doubt.says) < 150
