"""Every figure at every print size, with the inputs that break figures: nothing overlaps."""

from dataclasses import dataclass
from functools import partial

import pandas as pd
import pytest

from buttonstudy import draw, study
from buttonstudy.draw.style import MM_PER_INCH, print_size, print_sizes
from buttonstudy.schemes import Period, PeriodScheme, period_scheme
from buttonstudy.study.comparison.association import associations
from buttonstudy.study.comparison.turning import turning_years

LONG = "cloth of many colours, wound over a former of uncertain stuff and sewn through twice"
WORD = "Posamentenknopfmacherhandwerkszeugkastenschlossschraubenschluesselaufbewahrungsort"
ODD = "釦, пуговица & $x_1$ <b>"


def _periods(number, label="Period"):
    width = 120 // number
    periods = tuple(
        Period(f"{label} {place}", 1785 + place * width, 1784 + (place + 1) * width)
        for place in range(number)
    )
    return PeriodScheme("test", "Periods of the test", "none", periods)


@dataclass(frozen=True)
class Case:
    """What is drawn: the periods, and terms and recorders that replace the survey's own.

    ``figures`` are those that the case can break; all if empty.
    """

    periods: PeriodScheme
    terms: tuple[str, ...] = ()
    recorders: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()


COMPARED = ("estimates", "largest differences", "two periods", "turning", "ties")
BY_PERIOD = (*COMPARED[:3], "at least", "shares", "sizes by period", "periods")
BY_TERM = (*COMPARED, "shares", "crossed", "classes", "heaping")
CASES = {
    "as surveyed": Case(period_scheme("british-reigns")),
    "one period": Case(_periods(1), figures=BY_PERIOD),
    "twelve periods": Case(_periods(12), figures=BY_PERIOD),
    "long period names": Case(_periods(4, f"The time of {LONG}"), figures=BY_PERIOD),
    "long terms": Case(_periods(4), (LONG, WORD, ODD), (LONG, WORD, ODD), BY_TERM),
    "sixty terms": Case(_periods(6), tuple(f"term number {n}" for n in range(60)), (), BY_TERM),
    "sixty recorders": Case(_periods(2), (), tuple(f"Hand {n}" for n in range(60)), ("heaping",)),
}
NARROW, WIDE = "a5-column", "a5-page"
DRAWN_AT = [("as surveyed", size.name) for size in print_sizes()]
DRAWN_AT += [(case, NARROW) for case in CASES if case != "as surveyed"]
DRAWN_AT += [("twelve periods", WIDE), ("long terms", WIDE)]


def _survey(buttons, case):
    changed = buttons.copy()
    for name in ("mould_material", "hole_fill"):
        if case.terms:
            answered = ~changed[name].isin(["not examined", "unclear"])
            named = [case.terms[row % len(case.terms)] for row in range(len(changed))]
            changed[name] = changed[name].where(~answered, pd.Series(named))
    if case.recorders:
        changed["recorder"] = [
            case.recorders[row % len(case.recorders)] for row in range(len(changed))
        ]
    if case.terms:
        changed["size_class"] = [case.terms[row % len(case.terms)] for row in range(len(changed))]
    return changed


def _asks(case):
    return not case.figures or bool(set(COMPARED) & set(case.figures))


def _compared(survey, periods):
    """Compare periods in a few terms of one field, and hold them against fills."""
    terms = [
        term
        for term in dict.fromkeys(survey["mould_material"].dropna())
        if term not in ("not examined", "unclear")
    ][:12]
    traits = study.estimate_traits(
        survey, ["mould_material"], periods, {"mould_material": terms}, draws=40
    )
    ends = (periods.periods[0].label, periods.periods[-1].label)
    fills = associations(survey, "hole_fill", "mould_material", groups=terms[:4], n_draws=20)
    compared = study.compare_periods(traits, shuffles=40)
    return {
        "estimates": study.estimated_shares(traits),
        "largest differences": compared,
        "two periods": study.as_compared(study.differences_between(traits, *ends), compared),
        "turning": turning_years(survey, "mould_material", terms[:3]),
        "ties": fills.head(20).assign(field="hole_fill", by="mould_material"),
    }


DRAWERS = {
    "estimates": draw.estimates_figure,
    "largest differences": draw.comparison_figure,
    "two periods": draw.differences_figure,
    "turning": draw.turning_figure,
    "ties": draw.ties_figure,
}


@pytest.fixture(scope="module")
def compared(buttons):
    """Keep the comparisons of each case, since every print size draws the same."""
    kept = {}

    def get(name):
        if name not in kept:
            case = CASES[name]
            kept[name] = _compared(_survey(buttons, case), case.periods) if _asks(case) else {}
        return kept[name]

    return get


def _figures(buttons, case, size, tables):
    """Draw the figures that a case can break."""
    survey = _survey(buttons, case)
    source = study.source_line(survey)
    periods = case.periods
    makers = {
        name: partial(DRAWERS[name], table, size, source=source) for name, table in tables.items()
    }
    makers |= {
        "at least": lambda: draw.at_least_figure(
            study.at_least_by_period(survey, periods, n_draws=20), size=size, source=source
        ),
        "shares": lambda: draw.shares_figure(
            study.shares_by_period(survey, "mould_material", periods),
            "mould_material",
            size,
            source=source,
        ),
        "crossed": lambda: draw.crossed_figure(
            study.shares_crossed(survey, "hole_fill", "mould_material"),
            "hole_fill",
            "mould_material",
            size,
            source=source,
        ),
        "layers": lambda: draw.crossed_figure(
            study.shares_crossed(survey, "hole_fill", "cover_layers"),
            "hole_fill",
            "cover_layers",
            size,
            source=source,
        ),
        "distribution": lambda: draw.size_distribution(
            study.size_histogram(survey), size, source=source
        ),
        "classes": lambda: draw.size_classes_figure(
            study.size_class_counts(survey), size, scheme=LONG, source=source
        ),
        "sizes by period": lambda: draw.sizes_by_period(
            study.sizes_by_period(survey, periods), size, source=source
        ),
        "curve": lambda: draw.size_curve(
            study.size_distribution(survey),
            study.size_quantiles(survey),
            size,
            source=source,
        ),
        "spacing": lambda: draw.spacing_figure(
            study.search_spacing(survey, n_surveys=20),
            study.spacing_tests(survey, n_surveys=20),
            size,
            source=source,
        ),
        "heaping": lambda: draw.heaping_figure(study.terminal_digits(survey), size, source=source),
        "examined": lambda: draw.examined_figure(
            study.examined_by_field(survey), size, source=source
        ),
        "periods": lambda: draw.periods_figure(
            study.record_by_period(survey, periods),
            study.date_spans(survey),
            size,
            scheme=periods.title,
            source=source,
        ),
    }
    return [makers[name]() for name in case.figures or makers]


@pytest.mark.parametrize(("case", "size"), DRAWN_AT)
def test_text_neither_overlaps_nor_is_cut_and_the_figure_fits_its_place(
    buttons, legible, compared, case, size
):
    place = print_size(size)
    for drawn in _figures(buttons, CASES[case], size, compared(case)):
        if drawn.figure is None:
            assert drawn.name in ("two-periods", "largest-differences"), drawn.caption
            continue
        width, height = drawn.figure.get_size_inches() * MM_PER_INCH
        assert width == pytest.approx(place.width_mm), drawn.name
        assert height <= place.tallest_mm + 1e-6, drawn.name
        legible(drawn.figure)
        assert drawn.caption.endswith("."), drawn.name
        assert drawn.alt_text.endswith("."), drawn.name


def test_the_check_itself_sees_overlaps_and_cuts(buttons, legible):
    drawn = draw.size_classes_figure(study.size_class_counts(buttons))
    drawn.figure.text(0.5, 0.5, "one over the other", fontsize=8, parse_math=False)
    drawn.figure.text(0.5, 0.5, "one over the other", fontsize=8, parse_math=False)
    with pytest.raises(AssertionError, match="overlap"):
        legible(drawn.figure)
    drawn = draw.size_classes_figure(study.size_class_counts(buttons))
    drawn.figure.text(0.97, 0.5, "beyond the edge", fontsize=8, parse_math=False)
    with pytest.raises(AssertionError, match="cut at the side"):
        legible(drawn.figure)
