import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import vocabulary
from buttonstudy.study.evidence.answers import BETWEEN, PIERCED, STATES, answers, band_edges

STATE_OF = {
    "bone": "examined",
    "bone; wood": "examined",
    "absent": "examined",
    "not examined": "not examined",
    "unclear": "unclear",
    None: "not recorded",
    "": "not recorded",
}


@pytest.mark.parametrize(("value", "state"), STATE_OF.items())
def test_the_kinds_of_blank_are_never_merged(value, state):
    found = answers(pd.DataFrame({"padding": [value]}), "padding")
    assert [STATES[code] for code in found.state] == [state]
    assert found.examined.tolist() == [state == "examined"]


def test_a_button_with_several_terms_has_each():
    buttons = pd.DataFrame({"mould_material": pd.Categorical(["bone; wood", "wood", "unclear"])})
    found = answers(buttons, "mould_material")
    assert list(found.has.columns) == ["wood", "bone"]
    assert found.has.to_numpy().tolist() == [[True, True], [True, False], [False, False]]


def test_terms_stand_by_frequency_with_absent_last():
    buttons = pd.DataFrame({"padding": ["absent"] * 3 + ["wool", "wool", "card"]})
    assert list(answers(buttons, "padding").has.columns) == ["wool", "card", "absent"]


def test_terms_that_have_an_order_stand_in_it_with_others_last():
    written = ["thick", "thick", "thick", "papery", "papery", "medium", "absent", "thin"]
    found = answers(pd.DataFrame({"cover_thickness": written}), "cover_thickness")
    assert list(found.has) == ["thin", "medium", "thick", "papery", "absent"]


def test_a_term_asked_for_that_nobody_has_keeps_its_column():
    found = answers(pd.DataFrame({"padding": ["wool"]}), "padding", ["card", "wool"])
    assert found.has.to_numpy().tolist() == [[False, True]]


# (low, high, state) -> the group it is in
COUNTS = {
    (2, 2, "counted"): "2",
    (2, None, "bounded"): "2 or more",
    (2, 3, "bounded"): "2–3",
    (None, 3, "bounded"): "3 or fewer",
    (0, 3, "bounded"): "3 or fewer",
    (0, 0, "counted"): "absent",
}


@pytest.mark.parametrize(("count", "group"), COUNTS.items())
def test_a_bounded_count_is_a_group_of_its_own(count, group):
    low, high, state = count
    buttons = pd.DataFrame(
        {
            "cover_layers_low": pd.array([low, 2], dtype="Int64"),
            "cover_layers_high": pd.array([high, 2], dtype="Int64"),
            "cover_layers_state": [state, "counted"],
        }
    )
    found = answers(buttons, "cover_layers")
    assert found.has[group].tolist() == [True, group == "2"]


def test_counts_stand_in_their_own_order_and_tell_why_they_are_missing():
    buttons = pd.DataFrame(
        {
            "cover_layers_low": pd.array([3, 1, 1, None, None], dtype="Int64"),
            "cover_layers_high": pd.array([3, None, 1, None, None], dtype="Int64"),
            "cover_layers_state": ["counted", "bounded", "counted", "not examined", None],
        }
    )
    found = answers(buttons, "cover_layers")
    assert list(found.has.columns) == ["1", "1 or more", "3"]
    assert [STATES[code] for code in found.state[3:]] == ["not examined", "not recorded"]


# (low, high) in mm -> band, with edges at 1.5 and 2.5 mm
BANDS = {
    (0.5, 1.5): "up to 1.5 mm",
    (1.5, 1.5): "up to 1.5 mm",
    (1.5, 2.5): "over 1.5 to 2.5 mm",
    (2.6, 2.6): "over 2.5 mm",
    (1.25, 1.75): "across two bands",
    (1.0, 3.0): "across two bands",
}


@pytest.mark.parametrize(("bounds", "band"), BANDS.items())
def test_a_reading_across_an_edge_is_in_neither_band(bounds, band):
    low, high = bounds
    buttons = pd.DataFrame(
        {
            "hole_diameter_mm": [(low + high) / 2],
            "hole_diameter_mm_low": [low],
            "hole_diameter_mm_high": [high],
        }
    )
    found = answers(buttons, "hole_diameter", edges=(1.5, 2.5))
    assert list(found.has.columns) == [band]


def test_a_length_missing_on_a_closed_button_was_not_examined():
    buttons = pd.DataFrame(
        {
            "hole_diameter_mm": pd.array([2.0, None, None], dtype="Float64"),
            "diameter_mm": pd.array([None, None, None], dtype="Float64"),
            "opened": pd.Categorical(["opened", "not opened", "opened"]),
        }
    )
    inside = [STATES[code] for code in answers(buttons, "hole_diameter").state]
    outside = [STATES[code] for code in answers(buttons, "diameter").state]
    assert inside == ["examined", "not examined", "not recorded"]
    assert outside == ["not recorded"] * 3


def test_the_kits_bands_have_ascending_edges():
    for field in ("diameter", "mould_diameter", "hole_diameter", "height"):
        edges = band_edges(field)
        assert edges == tuple(sorted(set(edges)))
        assert edges


@pytest.mark.parametrize(("size", "band"), [(13.43, "up to 13.4 mm"), (13.46, "13.5 to 19.5 mm")])
def test_a_bands_name_tells_which_tenths_it_holds(size, band):
    found = answers(pd.DataFrame({"diameter_mm": [size]}), "diameter")
    assert list(found.has.columns) == [band]


# step of the reading in mm -> sizes in mm -> how many lie across two bands (edges 1.55, 2.55, 4.55)
READ_TO = [
    (0.1, [1.4, 1.5, 1.6, 2.5, 2.6, 4.5, 4.6], 0),  # callipers
    (1.0, [1, 2, 3, 4, 5], 0),  # a ruler
    (0.5, [1.5, 2.5, 4.5], 3),  # half millimetres: 1.5 may be 1.25 to 1.75
]


@pytest.mark.parametrize(("step", "sizes", "expected"), READ_TO)
def test_usual_readings_do_not_lie_across_the_edges_of_bands(step, sizes, expected):
    sizes = np.array(sizes, dtype=float)
    buttons = pd.DataFrame(
        {
            "hole_diameter_mm": sizes,
            "hole_diameter_mm_low": sizes - step / 2,
            "hole_diameter_mm_high": sizes + step / 2,
        }
    )
    found = answers(buttons, "hole_diameter").has
    assert int(found.get(BETWEEN, pd.Series(0, dtype=int)).sum()) == expected


# 1 line = 1/40 inch: even lines read to the even line, to 0.1 mm, and whole sixteenths of an inch.
LINE, SIXTEENTH = 25.4 / 40, 25.4 / 16
TRADE = [(n * LINE, step) for n in range(16, 50, 2) for step in (2 * LINE, 0.1)]
TRADE += [(n * SIXTEENTH, SIXTEENTH) for n in range(6, 20)]


@pytest.mark.parametrize(("size", "step"), TRADE)
def test_trade_sizes_lie_in_one_band(size, step):
    buttons = pd.DataFrame(
        {
            "mould_diameter_mm": [size],
            "mould_diameter_mm_low": [size - step / 2],
            "mould_diameter_mm_high": [size + step / 2],
        }
    )
    assert BETWEEN not in answers(buttons, "mould_diameter").has


def test_a_hole_seen_by_its_size_answers_but_not_where_the_cells_own_words_are_asked():
    buttons = pd.DataFrame({"mould_hole": ["blind hole", None], "hole_diameter_mm": [2.0, 3.0]})
    seen = answers(buttons, "mould_hole").has
    assert seen["pierced"].tolist() == [False, True]
    assert seen["blind hole"].tolist() == [True, False]
    assert answers(buttons, "mould_hole", as_written=True).examined.tolist() == [True, False]
    terms = {one.term: one.synonyms for one in vocabulary().terms("mould_hole")}
    assert "yes" in terms[PIERCED]  # the answer is that of a column that says so
