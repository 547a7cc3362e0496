"""The face and the height of a button among the sizes in a cell.

That a button's size is its widest measure: trade pages (apparelscience.com); the rest is common
practice, no source.
"""

import pytest

from buttonstudy.readings.lengths.faces import face_diameter, heights
from buttonstudy.readings.lengths.reading import read_lengths

# Wording, widest measure of the face in mm (one for each list), kinds of doubt.
FACES = [
    ("16 mm", [16], []),
    ("Ø 16 mm", [16], []),
    ("16 mm (5/8 in)", [16, 15.875], []),
    ("H x diam.: 5 x 16 mm", [16], []),
    ("diam. 16 mm, h 5 mm", [16], []),
    ("H x diam.: 18 x 16 mm", [16], []),
    ("20 x 18 mm; diam. 16 mm", [16], []),
    ("L x W x D: 20 x 12 x 4 mm", [20], ["size-not-round"]),
    ("L x W: 20 x 20 mm", [20], []),
    ("W x L x D: 12 x 20 x 4 mm", [20], ["size-not-round"]),
    ("H x W x D: 5 x 18 x 18 mm", [18], ["size-not-round"]),
    ("H x W x D: 22 x 18 x 5 mm", [22], ["size-not-round"]),
    ("L x W x H: 15 x 12 x 16 mm", [15], ["size-not-round"]),
    ("15mm x 15mm x 4mm", [15], []),
    ("4 x 15 x 15 mm", [15], []),
    ("15 x 12 x 4 mm", [15], ["size-not-round"]),
    ("16 x 5 mm", [16], ["size-two-figures"]),
    ("15 x 16 mm", [16], []),
    ("18 mm (mould 16 mm)", [18], []),
    ("mould 16 mm; button 18 mm", [18], []),
    ("a: 16 mm; b: 18 mm", [18], ["size-parts"]),
    ("16 mm; b: 18 mm", [16], []),
    ("16 mm (12 cm)", [16], ["size-too-large"]),
]

# Wording, kind of the fatal doubt, what it says.
NO_FACE = [
    ("Overall: 23 cm (9 1/16 in.)", "size-too-large", "230 mm is too large for one button."),
    ("L x W: 12 x 10 cm", "size-too-large", "120 mm is too large for one button."),
    ("2 mm", "size-too-small", "2 mm is too small for one button."),
    ("mould 16 mm", "size-no-face", "The cell gives no measure across the face of the button."),
    ("depth 5 mm", "size-no-face", "The cell gives no measure across the face of the button."),
]

HEIGHTS = [
    ("H x diam.: 5 x 16 mm", [5]),
    ("Di x D: 16 x 5 mm (5/8 x 3/16 in)", [5, 4.7625]),
    ("H x W x D: 22 x 18 x 5 mm", [5]),
    ("15mm x 15mm x 4mm", [4]),
    ("4 x 15 x 15 mm", [4]),
    ("15 x 15 x 15 mm", []),
    ("16 x 5 mm", []),
    ("5 mm high", [5]),
    ("H x W: 22 x 18 mm", []),
    ("H x W: 5 x 18 mm", [5]),
    ("mould height 5 mm", []),
    ("16 mm", []),
]


@pytest.mark.parametrize(("text", "faces", "kinds"), FACES)
def test_the_widest_measure_across_the_face_is_taken(
    text: str, faces: list[float], kinds: list[str]
) -> None:
    found, doubts = face_diameter(read_lengths(text).lengths)
    assert [one.best for one in found] == pytest.approx(faces)
    assert [doubt.kind for doubt in doubts] == kinds
    assert not any(doubt.fatal for doubt in doubts)


@pytest.mark.parametrize(("text", "kind", "says"), NO_FACE)
def test_what_cannot_be_one_buttons_face_is_told(text: str, kind: str, says: str) -> None:
    found, doubts = face_diameter(read_lengths(text).lengths)
    assert found == ()
    assert (doubts[0].kind, doubts[0].says, doubts[0].fatal) == (kind, says, True)


def test_nothing_read_has_no_face_and_no_doubt() -> None:
    assert face_diameter(()) == ((), ())


def test_the_mould_is_told_apart_from_the_finished_button() -> None:
    lengths = read_lengths("18 mm (mould 16 mm)").lengths
    assert [one.best for one in face_diameter(lengths, "mould").lengths] == [16]
    assert [one.best for one in face_diameter(lengths).lengths] == [18]


def test_a_cell_under_a_heading_for_moulds_need_not_name_the_mould() -> None:
    assert [one.best for one in face_diameter(read_lengths("16 mm").lengths, "mould").lengths] == [
        16
    ]


def test_the_doubts_say_which_measures_were_used() -> None:
    _, doubts = face_diameter(read_lengths("16 x 5 mm").lengths)
    assert doubts[0].says == (
        "The cell gives 16 and 5 mm without saying which is which; "
        "the larger was taken for the face."
    )
    _, doubts = face_diameter(read_lengths("L x W: 20 x 12 mm").lengths)
    assert doubts[0].says == "The face is 20 by 12 mm; its widest measure was used."
    assert doubts[0].note
    _, doubts = face_diameter(read_lengths("a: 16 mm; b: 18 mm").lengths)
    assert doubts[0].says == (
        "The cell gives the sizes of 2 parts; that of the widest, b, was used."
    )


@pytest.mark.parametrize(("text", "expected"), HEIGHTS)
def test_heights_are_labelled_or_clearly_the_smallest(text: str, expected: list[float]) -> None:
    found = heights(read_lengths(text).lengths)
    assert [one.best for one in found] == pytest.approx(expected)
