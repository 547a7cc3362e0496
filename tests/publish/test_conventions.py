"""Checks the conventions as a report prints them."""

from pathlib import Path

from buttonstudy.publish.conventions import conventions

DATES, CLASSES = "buttonstudy", "us-society"


def test_periods_with_sources_of_their_own_show_them_beside_each() -> None:
    _, periods, _ = conventions(DATES, "british-reigns", CLASSES)
    assert periods.source == "Each period has its own source."
    source = periods.table.set_index("Period")["Source"]
    assert source["Regency"].startswith("Years as in")
    assert all(source)


def test_a_source_that_all_periods_share_is_told_once() -> None:
    _, periods, _ = conventions(DATES, "twenty-years", CLASSES)
    assert periods.source.startswith("Plain division of the calendar")
    assert "Source" not in periods.table


def test_a_users_own_periods_without_sources_are_printed_without(tmp_path: Path) -> None:
    own = tmp_path / "own.csv"
    own.write_text("label,year_from,year_to\nEarly,1800,1839\nLate,1840,1899\n", encoding="utf-8")
    _, periods, _ = conventions(DATES, str(own), CLASSES)
    assert (periods.title, periods.source) == ("own", "")
    assert list(periods.table["Period"]) == ["Early", "Late"]
    assert "Source" not in periods.table
