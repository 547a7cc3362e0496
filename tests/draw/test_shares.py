import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import crossed_figure, shares_figure
from buttonstudy.draw.row_labels import labelled
from buttonstudy.draw.shown_terms import rare_groups_together
from buttonstudy.draw.style import MM_PER_POINT, ink, print_sizes
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import shares_by_period, shares_crossed
from buttonstudy.study.shares.tally import COUNT_COLUMNS

TWO = PeriodScheme(
    "two", "Two periods", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)
LONG_NAMES = PeriodScheme(
    "long",
    "Two periods",
    "none",
    tuple(
        Period(f"{one.label} years of the trade", one.year_from, one.year_to) for one in TWO.periods
    ),
)


def _buttons(early, late):
    """Make sets by period: numbers with thread, with wax, not examined."""
    rows = []
    for year, numbers in ((1800, early), (1850, late)):
        for value, number in zip(("thread", "wax", "not examined"), numbers):
            rows += [{"hole_fill": value, "year_from": year, "year_to": year}] * number
    return pd.DataFrame(rows)


def _drawn(early, late, **options):
    table = shares_by_period(_buttons(early, late), "hole_fill", TWO)
    return shares_figure(table, "hole_fill", terms=["thread"], source="invented.csv", **options)


def _words(drawn):
    return [text.get_text() for text in drawn.figure.texts]


def test_a_row_has_its_share_its_interval_its_bounds_and_its_counts():
    # 12 of 39 with 81 without an answer; Wilson 0.186 to 0.464 and bounds 0.100 to 0.775, survey B
    # of the statistics references.
    drawn = _drawn((12, 27, 81), (0, 0, 0))
    (axes,) = drawn.figure.axes
    (dots,) = (line.get_xdata() for line in axes.lines if line.get_marker() == "o")
    assert dots.tolist() == pytest.approx([12 / 39] * 2)
    interval = axes.collections[0].get_segments()[0][:, 0]
    assert interval.tolist() == pytest.approx([0.186, 0.464], abs=5e-4)
    bounds = axes.patches[0]
    assert bounds.get_x() == pytest.approx(0.1)
    assert bounds.get_x() + bounds.get_width() == pytest.approx(0.775)
    assert "12 of 39 (+81)" in _words(drawn)


def test_a_scale_under_counts_and_shares_says_which_marks_it_measures():
    assert "share of the sets examined" in _words(_drawn((12, 27, 0), (0, 0, 0)))
    mixed = _words(_drawn((12, 27, 0), (3, 5, 0)))
    assert "share of the sets examined (dot and line)" in mixed


def test_only_what_is_there_is_explained():
    everyone = " ".join(_words(_drawn((12, 27, 0), (0, 0, 0))))
    assert "interval" in everyone
    assert "Grey" not in everyone
    assert "unanswered" not in everyone


def test_few_sets_are_squares_and_no_dot():
    drawn = _drawn((3, 5, 0), (0, 29, 0))
    (axes,) = drawn.figure.axes
    squares = next(one for one in axes.collections if len(one.get_offsets()) > 1)
    filled = [to_hex(colour).upper() == ink("deep").colour for colour in squares.get_facecolors()]
    assert (len(filled), filled[:8].count(True), filled[8:].count(True)) == (8 + 29, 3, 0)
    down = squares.get_offsets()[:, 1]
    assert down[:8].max() < down[8:].min()
    (dots,) = (line.get_xdata() for line in axes.lines if line.get_marker() == "o")
    assert len(dots) == 1  # all sets together are 37
    assert "3 of 8" in _words(drawn)


def test_no_percentage_is_told_of_few_sets():
    drawn = _drawn((3, 5, 0), (0, 9, 2))
    assert "early 3 of 8; late 0 of 9; All sets 3 of 17." in drawn.alt_text
    assert "%" not in drawn.alt_text
    assert not any("%" in words for words in _words(drawn))
    assert not any(tick.get_text() for axes in drawn.figure.axes for tick in axes.get_xticklabels())
    assert "interval" not in drawn.caption
    assert not any("interval" in words for words in _words(drawn))


def test_the_alternative_text_tells_every_row():
    drawn = _drawn((12, 27, 81), (1, 2, 0))
    assert drawn.alt_text == (
        "Hole fill by period. Sets with the term, of sets examined. thread: early 12 of 39 (31 %, "
        "19 to 46 %); late 1 of 3; All sets 13 of 42 (31 %, 19 to 46 %)."
    )


def test_the_figure_names_its_source_and_its_caption_the_years():
    drawn = _drawn((12, 27, 81), (1, 2, 0))
    assert "Source: invented.csv" in _words(drawn)
    assert (
        "42 sets examined of 123 in this survey whose mould is not noted as without a hole."
        in drawn.caption
    )
    assert "Periods: early, 1800–1849; late, 1850–1899." in drawn.caption
    assert drawn.name == "hole-fill-by-period"


def test_empty_periods_at_the_ends_and_empty_other_rows_are_left_out():
    words = _words(_drawn((0, 0, 0), (12, 27, 0)))
    assert "late" in words
    assert not {"early", "Cannot be placed", "Outside the periods"} & set(words)


def test_the_title_says_which_terms_it_is_about_where_the_page_holds_not_all():
    buttons = pd.DataFrame(
        [
            {"cover_material": term, "year_from": 1700 + 10 * n, "year_to": 1700 + 10 * n}
            for n in range(20)
            for term in ("silk", "wool", "linen")
        ]
    )
    decades = tuple(Period(f"{year}s", year, year + 9) for year in range(1700, 1900, 10))
    table = shares_by_period(
        buttons, "cover_material", PeriodScheme("tens", "Tens", "none", decades)
    )
    narrow = shares_figure(table, "cover_material", "a5-column")
    first = table["term"].iloc[0]
    assert f"Cover material by period: {first}" in " ".join(_words(narrow))
    assert narrow.caption.startswith(f"Cover material by period: {first}: 60 sets examined")
    wide = shares_figure(table, "cover_material", "a4-page")
    assert "Cover material by period" in _words(wide)


def test_the_title_counts_all_terms_and_those_of_a_single_set_too():
    values = [f"a rather long name of term {number:02}" for number in range(6)] * 2
    values += ["alone", "another"]
    buttons = pd.DataFrame({"cover_material": values, "year_from": 1800, "year_to": 1800})
    table = shares_by_period(buttons, "cover_material", TWO)
    title = " ".join(_words(shares_figure(table, "cover_material", "a5-page")))
    assert "Cover material by period: 6 terms of 8" in title


def test_in_a_narrow_column_periods_are_labelled_by_their_years_which_the_caption_explains():
    buttons = pd.DataFrame({"hole_fill": ["open"] * 9, "year_from": 1815, "year_to": 1815})
    reign = Period("George the Third and his son", 1811, 1820)
    table = shares_by_period(buttons, "hole_fill", PeriodScheme("one", "One", "none", (reign,)))
    narrow, wide = (
        shares_figure(table, "hole_fill", f"a5-{place}") for place in ("column", "page")
    )
    assert "1811–1820" in _words(narrow)
    assert not {"George", "Third"} & set(" ".join(_words(narrow)).split())
    assert "Periods: George the Third and his son, 1811–1820." in narrow.caption
    assert "1811–1820" not in _words(wide)


def test_terms_that_do_not_fit_are_named_under_the_figure_with_their_sets():
    values = [f"fill {number:02}" for number in range(40)] * 2
    buttons = pd.DataFrame({"hole_fill": values, "year_from": 1800, "year_to": 1800})
    drawn = shares_figure(shares_by_period(buttons, "hole_fill", TWO), "hole_fill", "a5-column")
    shown = sum(word in values for word in _words(drawn))
    assert 1 <= shown < 34
    assert f"Not drawn, but in the table: fill {shown:02} 2 sets, fill" in drawn.caption
    under = " ".join(_words(drawn))
    assert f"Not drawn: fill {shown:02} 2 sets, fill {shown + 1:02} 2," in under
    assert f"and {40 - shown - 6} more terms." in under


def test_the_commonest_terms_come_first_and_a_single_set_gets_no_panel():
    # Many sets were not examined, and had each term's order turned round if they counted.
    values = ["bone"] * 3 + ["wood"] * 5 + ["pastbord"]
    buttons = pd.DataFrame({"mould_material": values, "year_from": 1800, "year_to": 1800})
    table = shares_by_period(buttons, "mould_material", TWO)
    drawn = shares_figure(table, "mould_material", "a5-column")
    words = _words(drawn)
    assert words.index("wood") < words.index("bone")
    assert "pastbord" not in words
    assert "Not drawn: pastbord 1 set." in words
    assert "“pastbord” is the survey’s own term or wording, not the kit’s." in drawn.caption


def test_a_survey_of_single_sets_still_has_its_figure():
    buttons = pd.DataFrame({"hole_fill": ["wax", "paper"], "year_from": 1800, "year_to": 1800})
    drawn = shares_figure(shares_by_period(buttons, "hole_fill", TWO), "hole_fill")
    assert {"wax", "paper"} <= set(_words(drawn))


def test_where_squares_would_close_up_few_sets_are_a_bar():
    table = shares_by_period(_buttons((3, 5, 0), (0, 9, 100)), "hole_fill", LONG_NAMES)
    narrow, wide = (
        shares_figure(table, "hole_fill", size, terms=["thread"])
        for size in ("a5-column", "a5-page")
    )
    assert any("a square for each" in word for word in " ".join(_words(wide)).split(". "))
    assert "a bar as long as their number, filled for sets with it" in " ".join(_words(narrow))
    assert {"sets examined (bar)", "0", "10", "20", "30"} <= set(_words(narrow))
    assert not {"sets examined (bar)", "30"} & set(_words(wide))
    (axes,) = narrow.figure.axes
    bars = [(bar.get_width() * 30, to_hex(bar.get_facecolor())) for bar in axes.patches]
    paper, deep = ink("paper").colour.lower(), ink("deep").colour.lower()
    counted = [(round(width), colour) for width, colour in bars if 0 < width < 30]
    assert sorted(counted) == sorted([(8, paper), (9, paper), (17, paper), (3, deep), (3, deep)])


@pytest.mark.parametrize("size", [size.name for size in print_sizes()])
def test_an_empty_square_keeps_seven_tenths_of_a_millimetre_open(size):
    # Drafting practice: parallel lines no less than 0.7 mm apart (limits.csv).
    buttons = pd.DataFrame(
        {"hole_fill": ["thread", "wax", "fur", "lint"] * 7, "year_from": 1800, "year_to": 1800}
    )
    drawn = shares_figure(shares_by_period(buttons, "hole_fill", TWO), "hole_fill", size)
    for axes in drawn.figure.axes:
        for marks in axes.collections:
            sides = marks.get_sizes() ** 0.5 * MM_PER_POINT
            edges = marks.get_linewidths()[0] * MM_PER_POINT
            assert (sides - edges >= 0.7).all()


def test_groups_of_single_sets_share_a_row():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread"] * 4 + ["wax"] * 2,
            "mould_material": ["bone", "bone", "horn", "pastbord", "bone", "bone"],
        }
    )
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    drawn = crossed_figure(table, "hole_fill", "mould_material")
    assert "bone 2 of 4; 2 others 2 of 2; All sets 4 of 6." in drawn.alt_text
    assert "2 others: horn and pastbord." in drawn.caption
    assert "“pastbord” is the survey’s own term or wording" in drawn.caption


def test_many_groups_of_single_sets_are_told_by_the_share_of_them_all():
    own = [f"stuff {number}" for number in range(40)]
    fills = ["thread"] * 10 + ["wax"] * 30
    buttons = pd.DataFrame({"hole_fill": [*fills, *fills], "mould_material": ["bone"] * 40 + own})
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    drawn = crossed_figure(table, "hole_fill", "mould_material")
    # Wilson's interval of 10 in 40, by statsmodels' proportion_confint: 14 to 40 %.
    assert "thread: bone 10 of 40 (25 %, 14 to 40 %); 40 others 10 of 40 (25 %, 14 to 40 %)" in (
        drawn.alt_text
    )
    named = "40 others: stuff 0, stuff 1, stuff 10, stuff 11, stuff 12, stuff 13 and 34 more."
    assert named in drawn.caption
    rows = labelled(table, "group")
    together = rare_groups_together(rows, "mould_material")[0]
    other, bone = (
        together[together["label"] == name].set_index("term")[list(COUNT_COLUMNS)]
        for name in ("40 others", "bone")
    )
    pd.testing.assert_frame_equal(other, bone)


def test_groups_of_another_field_are_rows_and_the_unknown_are_named():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread", "wax", "thread", "wax"],
            "mould_material": ["bone", "bone", "not examined", "bone"],
        }
    )
    drawn = crossed_figure(
        shares_crossed(buttons, "hole_fill", "mould_material"), "hole_fill", "mould_material"
    )
    words = _words(drawn)
    assert "Hole fill by mould material" in words
    assert {"thread", "wax", "bone", "All sets"} <= set(words)
    assert "Mould material not examined 1 of 1" in drawn.alt_text
    assert drawn.name == "hole-fill-by-mould-material"
    assert "none" not in words
    assert "Groups of which no set was examined" not in drawn.caption


def test_groups_of_which_nothing_was_examined_are_left_to_the_table_and_that_is_said():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread", "wax", "not examined"],
            "mould_material": ["bone", "bone", "horn"],
        }
    )
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    drawn = crossed_figure(table, "hole_fill", "mould_material")
    assert "horn" not in _words(drawn)
    assert "Groups of which no set was examined are in the table only." in drawn.caption
    assert "1 of 2 (+1)" in _words(drawn)  # all sets still count it


def test_a_bare_count_is_named_by_its_field():
    buttons = pd.DataFrame(
        {
            "cover_layers_low": [2, 2],
            "cover_layers_high": pd.array([2, None], dtype="Int64"),
            "cover_layers_state": ["counted", "bounded"],
        }
    )
    drawn = shares_figure(shares_by_period(buttons, "cover_layers", TWO), "cover_layers")
    assert {"Cover layers: 2", "Cover layers: 2 or more"} <= set(_words(drawn))


@pytest.mark.parametrize("values", [[], ["not examined"], [None]])
def test_nothing_examined_is_said_in_words(values):
    buttons = pd.DataFrame({"hole_fill": values, "mould_material": values}, dtype="object")
    by_period = shares_figure(shares_by_period(buttons, "hole_fill", TWO), "hole_fill")
    crossed = crossed_figure(
        shares_crossed(buttons, "hole_fill", "mould_material"), "hole_fill", "mould_material"
    )
    for drawn in (by_period, crossed):
        assert drawn.figure is None
        assert drawn.caption == "There is no figure here: no set was examined for hole fill."
        assert drawn.alt_text == drawn.caption


def test_a_term_asked_for_in_vain_has_no_figure():
    table = shares_by_period(_buttons((1, 0, 0), (0, 0, 0)), "hole_fill", TWO)
    assert shares_figure(table, "hole_fill", terms=["straw"]).figure is None
