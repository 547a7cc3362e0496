"""Date conventions: what each source says in years, completed from the default, or refused."""

import pytest

from buttonstudy.schemes.conventions import (
    convention_table,
    date_convention,
    date_conventions,
)
from buttonstudy.schemes.named_periods import named_periods
from buttonstudy.schemes.periods import period_scheme
from buttonstudy.schemes.tables import SchemeError, rows

# Convention, rule, round year or years named, years meant, source.
PUBLISHED = [
    # Cataloging Cultural Objects 4.2.3.2: ca. 1610 is 1605 to 1615.
    ("buttonstudy", "circa year", (1610,), (1605, 1615)),
    # APIS, Columbia University Libraries: early 00-25, mid 50, late 75-99, halves 00-50, 50-99.
    ("quarters", "century early", (1800,), (1800, 1825)),
    ("quarters", "century mid", (1800,), (1850, 1850)),
    ("quarters", "century late", (1800,), (1875, 1899)),
    ("quarters", "century first half", (1800,), (1800, 1850)),
    ("quarters", "century second half", (1800,), (1850, 1899)),
    # The Met, Open Access 06.421a,b: late 19th century 1867-1899, 18th century 1700-1799.
    ("thirds", "century late", (1800,), (1867, 1899)),
    ("thirds", "century", (1700,), (1700, 1799)),
    # Carnegie Museum of Art, CC0 records: its most frequent years for its own wordings.
    ("carnegie", "circa year", (1900,), (1895, 1905)),
    ("carnegie", "circa decade", (1920, 1929), (1915, 1935)),
    ("carnegie", "century early", (1800,), (1800, 1830)),
    ("carnegie", "decade early", (1860,), (1860, 1865)),
    ("carnegie", "decade late", (1860,), (1865, 1869)),
    # Object ID, guide on date or period: circa ten years either side, before up to 100 years.
    ("object-id", "circa year", (1860,), (1850, 1870)),
    ("object-id", "before", (1900,), (1800, 1899)),
    ("object-id", "after", (1800,), (1801, 1900)),
    # grahamsmithantiques.com: the 18th century is 1701 to 1800.
    ("strict-centuries", "century", (1700,), (1701, 1800)),
]

REFUSED = [
    ("centry early,0,33,x,y", 'column rule: "centry early" is not a rule for dates. The nearest'),
    ("circa year,,5,x,y", 'column first: "" leaves an end open. Write a number of years'),
    ("before,,,x,y", 'column first: "" leaves an end open'),
    ("circa year,1,5,x,y", 'column first: "1" makes the date narrower'),
    ("century early,33,0,x,y", 'column last: "0" comes before the first year'),
    ("century early,0,about 30,x,y", 'column last: "about 30" is not a number of years'),
    ("century early,0,5000,x,y", 'column last: "5000" is not a number of years'),
    ("decade,0,9,x,y\ndecade,0,10,x,y", 'row 3, column rule: "decade" stands twice'),
]


@pytest.mark.parametrize(("name", "rule", "named", "meant"), PUBLISHED)
def test_each_convention_says_what_its_source_says(name, rule, named, meant):
    assert date_convention(name).years(rule, *named) == meant


@pytest.mark.parametrize("name", date_conventions())
def test_every_convention_has_every_rule_with_a_meaning_and_a_source(name):
    convention = date_convention(name)
    assert [rule.rule for rule in convention.rules] == [row["rule"] for row in rows("date_rules")]
    assert all(rule.meaning and rule.source for rule in convention.rules)
    assert convention.title
    assert convention.source


def test_the_default_comes_first():
    assert date_conventions()[0] == "buttonstudy"


def test_the_default_parts_a_century_without_gap_or_overlap():
    convention = date_convention("buttonstudy")
    for unit, parts in (
        ("century", ("early", "mid", "late")),
        ("century", ("first half", "second half")),
        ("century", ("first quarter", "second quarter", "third quarter", "last quarter")),
        ("century", ("first third", "second third", "last third")),
        ("decade", ("early", "mid", "late")),
        ("decade", ("first half", "second half")),
    ):
        spans = [convention.years(f"{unit} {part}", 1800) for part in parts]
        years = [year for first, last in spans for year in range(first, last + 1)]
        first, last = convention.years(unit, 1800)
        assert years == list(range(first, last + 1))


def test_what_a_convention_leaves_out_is_told_as_the_default_s():
    rule = next(rule for rule in date_convention("quarters").rules if rule.rule == "circa year")
    assert (rule.first, rule.last) == (-5, 5)
    assert rule.source.startswith("Not stated by quarters; as in the kit's default. ")


def test_the_table_shows_each_wording_with_its_years_in_words():
    shown = {
        wording: read_as for wording, read_as, _ in convention_table(date_convention("thirds"))
    }
    assert shown["late 19th century"] == "1867-1899: the last third of the century"
    assert shown["before 1840"].startswith("1839 or earlier: ")
    assert shown["1840 or later"].startswith("1840 or later: ")
    assert shown["1860?"].startswith("1860: ")
    strict = convention_table(date_convention("strict-centuries"))
    assert dict(row[:2] for row in strict)["c. 19th century"].startswith("1796-1905: ")


def test_an_unknown_name_is_answered_with_the_choices_and_the_nearest():
    with pytest.raises(SchemeError) as told:
        date_convention("third")
    assert str(told.value) == (
        'There is no date convention called "third". The nearest is "thirds". Use one of: '
        "buttonstudy, quarters, thirds, carnegie, object-id, strict-centuries; "
        "or give the path of your own CSV file."
    )


def test_a_file_of_one_s_own_needs_only_what_differs(tmp_path):
    path = tmp_path / "ours.csv"
    path.write_text(
        "rule;first;last;meaning;source\n"
        "convention;;;Our society's way.;Minutes of 2025\n"
        "circa year;−2;2;two years either side;Minutes of 2025\n"
        "before;;0;up to the year;\n",
        encoding="utf-8-sig",
    )
    convention = date_convention(path)
    assert (convention.name, convention.title) == ("ours.csv", "Our society's way.")
    assert convention.years("circa year", 1860) == (1858, 1862)
    assert convention.years("before", 1840) == (None, 1840)
    assert convention.years("century late", 1800) == (1867, 1899)
    assert {rule.rule: rule.source for rule in convention.rules}["before"] == "No source."


@pytest.mark.parametrize(("lines", "told"), REFUSED)
def test_a_line_that_makes_no_sense_is_refused_with_its_place(tmp_path, lines, told):
    path = tmp_path / "ours.csv"
    path.write_text(f"rule,first,last,meaning,source\n{lines}\n", encoding="utf-8")
    with pytest.raises(SchemeError) as refused:
        date_convention(path)
    assert str(refused.value).startswith(f"{path}, row ")
    assert told in str(refused.value)


def test_a_missing_file_is_told(tmp_path):
    with pytest.raises(SchemeError, match="cannot be read"):
        date_convention(tmp_path / "none.csv")


def test_named_periods_are_whole_and_within_their_widest_use():
    for period in named_periods():
        assert period.widest_from <= period.year_from <= period.year_to <= period.widest_to
        assert period.source
        assert all(period.phrases)
    phrases = [phrase.lower() for period in named_periods() for phrase in period.phrases]
    assert len(phrases) == len(set(phrases))


def test_reigns_follow_each_other():
    """Accessions as in the list of British monarchs (docslib.org): each ends where one begins."""
    years = {period.name: (period.year_from, period.year_to) for period in named_periods()}
    reigns = (
        "Queen Anne,George I,George II,George III,George IV,William IV,Queen Victoria,Edward VII"
    )
    spans = [years[name] for name in reigns.split(",")]
    assert [last for _, last in spans[:-1]] == [first for first, _ in spans[1:]]
    assert spans[0][0] == 1702
    assert spans[-1] == (1901, 1910)


def test_words_for_a_period_of_the_british_scheme_are_that_period():
    years = {period.name: (period.year_from, period.year_to) for period in named_periods()}
    scheme = {
        one.label: (one.year_from, one.year_to) for one in period_scheme("british-reigns").periods
    }
    for words, label in (
        ("early Victorian", "Early Victorian"),
        ("mid Victorian", "Mid Victorian"),
        ("late Victorian", "Late Victorian"),
        ("Edwardian", "Edwardian"),
        ("Regency", "Regency"),
    ):
        assert years[words] == scheme[label]
    assert years["Victorian"] == (scheme["Early Victorian"][0], scheme["Late Victorian"][1])
