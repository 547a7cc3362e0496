"""The finished drawings: legible at every width, true to scale, and told in words."""

import matplotlib
import numpy as np
import pandas as pd
import pytest

from buttonstudy import draw
from buttonstudy.draw.style import print_size
from buttonstudy.study.one_button.by_number import NoSuchButtonError

LONG = "cloth of many colours, wound over a former of uncertain stuff and sewn through twice"
WORD = "Posamentenknopfmacherhandwerkszeugkastenschlossschraubenschluesselaufbewahrungsort"
ODD = "釦, пуговица & $x_1$ <b>"
EMPTY = dict.fromkeys(
    [
        "mould_diameter_mm",
        "hole_diameter_mm",
        "height_mm",
        "year_from",
        "year_to",
        "opened",
        "mould_material",
        "mould_shape",
        "mould_hole",
        "hole_fill",
        "padding",
        "cover_material",
        "cover_thickness",
        "cover_layers_low",
        "cover_layers_high",
        "cover_layers_state",
        "cover_drawn_up",
        "thread",
        "back_finish",
        "attachment",
    ]
)
CASES = {
    "as recorded": {},
    "nothing but a size": EMPTY,
    "not opened": {**EMPTY, "opened": "not opened", "cover_material": "silk"},
    "long terms": {
        "mould_material": LONG,
        "hole_fill": WORD,
        "cover_material": LONG,
        "attachment": LONG,
        "padding": WORD,
        "decoration": LONG,
    },
    "other letters": {"button_id": ODD, "mould_material": ODD, "hole_fill": ODD, "thread": ODD},
    "a ball": {"mould_shape": "ball", "height_mm": None},
    "contradictions": {"mould_diameter_mm": 25.0, "hole_diameter_mm": 30.0, "height_mm": 0.5},
    "very small": {"diameter_mm": 0.5, "mould_diameter_mm": None, "hole_diameter_mm": None},
    "very large": {"diameter_mm": 280.0, "mould_diameter_mm": 260.0},
}
DRAWN_AT = [(case, size) for case in CASES for size in ("a5-column", "a5-page")]
DRAWN_AT += [("as recorded", "a4-column"), ("long terms", "a4-page")]


def drawing(row, case, size="a5-page"):
    changes = {"diameter_mm_low": None, "diameter_mm_high": None} | CASES[case]
    button = row(**changes)
    return draw.cross_section(button, button["button_id"].iloc[0], size, source="invented.csv")


@pytest.mark.parametrize(("case", "size"), DRAWN_AT)
def test_no_text_overlaps_or_is_cut(row, legible, case, size):
    drawn = drawing(row, case, size)
    width, height = drawn.figure.get_size_inches() * 25.4
    assert width == pytest.approx(print_size(size).width_mm)
    assert height <= print_size(size).height_mm + 0.1
    legible(drawn.figure)
    assert drawn.caption
    assert drawn.alt_text.startswith("Drawing of button ")


def test_the_paper_shows_the_scale_that_is_told(row):
    drawn = drawing(row, "as recorded")
    assert "drawn 3 times actual size" in drawn.caption
    axes = drawn.figure.axes[0]
    wide = [np.ptp(patch.get_xy()[:, 0]) for patch in axes.patches if hasattr(patch, "get_xy")]
    assert max(wide) == pytest.approx(3 * 18.0, abs=0.05)


def test_caption_and_alternative_text_are_made_from_the_record(row):
    drawn = drawing(row, "as recorded")
    assert drawn.caption == (
        "Cross-section of button T/1 (1820–1840), opened, drawn 3 times actual size. Recorded: "
        "diameter 18 mm, mould 16 mm, height 6 mm and hole 4 mm. Assumed for drawing: the cover "
        "fills the room between the widths of mould and button; the mould fills what the height "
        "leaves. Threads and fastenings show their kind, not their size. Dashed: not seen, or not "
        "sure. Not recorded: decoration, cover condition."
    )
    assert drawn.alt_text == (
        "Drawing of button T/1 cut through the middle, face up, diameter 18 mm, mould 16 mm, "
        "height 6 mm and hole 4 mm. From face to back: cover: silk, thin, 2 layers; hole: pierced, "
        "4 mm; fill: open; mould: wood, domed; drawn up: gathered on a running thread, linen "
        "thread; back: bare; attachment: thread shank. Not recorded: decoration, cover condition."
    )


def test_what_is_assumed_stands_on_the_drawing_with_its_kind_of_line(row):
    words = " ".join(text.get_text() for text in drawing(row, "a ball").figure.texts)
    assert "Dotted: a size is assumed." in words
    assert "Assumed for drawing: the cover fills the room between the widths of" in words
    assert "the mould is 15 mm thick, as a mould of the shape “ball” is usually drawn." in words
    measured = " ".join(text.get_text() for text in drawing(row, "as recorded").figure.texts)
    assert "Dotted" not in measured
    drawn = drawing(row, "nothing but a size")
    assert "attachment, decoration, cover condition, cover layers." in drawn.caption  # not cut


def test_contradictions_stand_on_the_drawing_and_in_its_caption(row):
    drawn = drawing(row, "contradictions")
    shown = " ".join(text.get_text() for text in drawn.figure.findobj(matplotlib.text.Text))
    for says in ("is wider than the button", "leaves no room for a mould"):
        assert says in drawn.caption
        assert says in shown


def test_without_a_size_there_is_a_sentence_and_no_drawing(row):
    button = row(**(EMPTY | dict.fromkeys(["diameter_mm", "diameter_mm_low", "diameter_mm_high"])))
    drawn = draw.cross_section(button, "T/1")
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no size is recorded for button T/1."


def test_an_unknown_button_is_refused(row):
    with pytest.raises(NoSuchButtonError, match="T/2"):
        draw.cross_section(row(), "T/2")


@pytest.fixture(scope="module")
def several():
    from tests.draw.section.conftest import record

    changes = [{"button_id": f"T/{number}", **CASES[case]} for number, case in enumerate(CASES)]
    changes = [one for one in changes if one.get("diameter_mm", 18) == 18]
    return pd.concat([record(**one) for one in changes], ignore_index=True)


@pytest.mark.parametrize("size", ["a5-page", "a4-page", "a5-column"])
def test_several_are_drawn_side_by_side_at_one_scale(several, legible, size):
    drawn = draw.cross_sections(several, (), size, source="invented.csv")
    legible(drawn.figure)
    assert "all drawn" in drawn.caption
    if size == "a5-column":
        assert "For want of room not drawn: T/" in drawn.caption
        assert "The size " not in drawn.caption  # no page holds so many


def test_a_sheet_names_the_size_that_would_hold_what_it_leaves_out(several):
    asked = several[several["button_id"].str.fullmatch(r"T/\d+")][:5]
    drawn = draw.cross_sections(asked, (), "a5-column", source="invented.csv")
    told = drawn.caption.partition("For want of room not drawn: ")[2]
    left_out, _, larger = told.partition(". The size ")
    names = left_out.replace(" and ", ", ").split(", ")
    assert names == list(asked["button_id"])[-len(names) :]
    size = larger.partition(" would hold all.")[0]
    assert "For want of room" not in draw.cross_sections(asked, (), size).caption


def test_a_sheet_says_who_has_no_size(row):
    sized, unsized = row(), row(button_id="T/2", diameter_mm=None, mould_diameter_mm=None)
    unsized = unsized.drop(columns=["diameter_mm_low", "diameter_mm_high"])
    drawn = draw.cross_sections(pd.concat([sized, unsized], ignore_index=True), ["T/2", "T/1"])
    assert "Without a recorded size, so not drawn: T/2." in drawn.caption
    assert draw.cross_sections(unsized).figure is None
