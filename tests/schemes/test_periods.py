"""Period schemes: published years, no overlap, and a user's own table."""

from itertools import pairwise
from pathlib import Path

import pytest

from buttonstudy.schemes import Period, SchemeError, period_scheme, period_schemes, rows

NAMES = ("british-reigns", "centuries", "half-centuries", "twenty-years", "decades")

# Year, and the period of Britain that it lies in. Accessions: George III died 29 Jan 1820, George
# IV 26 June 1830, William IV 20 June 1837 (docslib.org list of monarchs); Victoria reigned 20 June
# 1837 to 22 Jan 1901 (vintagevogueteam.blogspot.com); Regency 1811-1820 (recollections.biz);
# Edward VII died and George V died in 1910 and 1936 (from memory). The year of an accession goes
# to the new reign, which is the kit's own rule.
BRITISH = [
    (1713, None),
    (1714, "Georgian before the Regency"),
    (1810, "Georgian before the Regency"),
    (1811, "Regency"),
    (1820, "Regency"),
    (1821, "George IV and William IV"),
    (1830, "George IV and William IV"),
    (1836, "George IV and William IV"),
    (1837, "Early Victorian"),
    (1851, "Mid Victorian"),
    (1870, "Late Victorian"),
    (1900, "Late Victorian"),
    (1901, "Edwardian"),
    (1909, "Edwardian"),
    (1910, "George V"),
    (1935, "George V"),
    (1936, None),
]

LENGTHS = [("centuries", 100), ("half-centuries", 50), ("twenty-years", 20), ("decades", 10)]


def in_period(scheme: str, year: int) -> str | None:
    return next(
        (
            one.label
            for one in period_scheme(scheme).periods
            if one.year_from <= year <= one.year_to
        ),
        None,
    )


def test_the_schemes_are_there_under_their_names() -> None:
    assert period_schemes() == NAMES


@pytest.mark.parametrize(("year", "label"), BRITISH)
def test_a_year_lies_in_its_british_period(year: int, label: str | None) -> None:
    assert in_period("british-reigns", year) == label


def test_the_british_periods_leave_no_year_out() -> None:
    periods = period_scheme("british-reigns").periods
    assert all(late.year_from == early.year_to + 1 for early, late in pairwise(periods))


@pytest.mark.parametrize(("name", "years"), LENGTHS)
def test_plain_periods_are_equally_long_and_begin_at_round_years(name: str, years: int) -> None:
    # 18th century 1700-1799: The Met, Open Access records; 19th century 1800-1899: Carnegie
    # Museum of Art, CC0 records.
    periods = period_scheme(name).periods
    assert {one.year_to - one.year_from + 1 for one in periods} == {years}
    assert all(one.year_from % years == 0 for one in periods)
    assert in_period(name, 1714)
    assert in_period(name, 1936)


@pytest.mark.parametrize("name", NAMES)
def test_periods_do_not_overlap_and_have_their_own_labels(name: str) -> None:
    periods = period_scheme(name).periods
    assert all(early.year_to < late.year_from for early, late in pairwise(periods))
    assert len({one.label for one in periods}) == len(periods)


def test_every_row_has_a_source_and_every_scheme_one_title() -> None:
    assert all(row["source"] for row in rows("period_schemes"))
    titles = {(row["scheme"], row["title"]) for row in rows("period_schemes")}
    assert len(titles) == len(NAMES)


def test_the_rules_for_1837_and_1901_and_the_variations_are_printed_with_the_scheme() -> None:
    sources = {period.label: period.source for period in period_scheme("british-reigns").periods}
    for label in ("Early Victorian", "Edwardian"):
        assert "the year of an accession is counted to the new reign" in sources[label]
    assert "except that 1820 stays with the Regency" in sources["Regency"]
    assert "to 1914 in style" in sources["Edwardian"]


def test_a_scheme_has_the_source_that_all_its_periods_share() -> None:
    assert period_scheme("british-reigns").source == ""
    assert period_scheme("decades").source.startswith("Plain division of the calendar")


def test_a_users_own_table_is_read_in_order_of_time(tmp_path: Path) -> None:
    own = tmp_path / "reigns of Ruritania.csv"
    own.write_text(
        "label,year_from,year_to,source\nLater,1850,1899,The court almanac\nEarlier,1800,1839,\n",
        encoding="utf-8",
    )
    scheme = period_scheme(own)
    assert scheme.periods == (
        Period("Earlier", 1800, 1839),
        Period("Later", 1850, 1899, "The court almanac"),
    )
    assert (scheme.title, scheme.source) == ("reigns of Ruritania", "")


FAULTS = [
    ("A,1850,1840", 'row 2, column year_to: "1840" is before the first year. Exchange the two'),
    ("A,1800,1849\nB,1849,1899", 'row 3, column year_from: "1849" lies inside A. Let each period'),
    ("A,1800,1849\nA,1850,1899", 'row 3, column label: "A" stands twice. Give each period its own'),
    ("A,c. 1800,1849", 'row 2, column year_from: "c. 1800" is not a year. Write a whole year such'),
    (",1800,1849", 'row 2, column label: "" is empty. Fill it in, or take the row out.'),
]


@pytest.mark.parametrize(("lines", "message"), FAULTS)
def test_a_fault_in_a_users_table_is_told_by_row_and_column(
    lines: str, message: str, tmp_path: Path
) -> None:
    own = tmp_path / "own.csv"
    own.write_text(f"label,year_from,year_to\n{lines}\n", encoding="utf-8")
    with pytest.raises(SchemeError) as told:
        period_scheme(own)
    assert message in str(told.value)
