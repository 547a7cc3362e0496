"""Date wordings beside the years that a museum gave them, by hands that never saw this kit.

Data: Carnegie Museum of Art, CC0, github.com/cmoa/collection, commit 3603ad5f (17 March 2017):
1,123 different pairs of a wording and the museum's own first and last year, with the number of
records that have the pair. A pair is one row below; a record counts its pair as often as it stands
in the collection.

What is counted
---------------
- *Stating a date*: every pair whose wording has a figure in it and that has both years. Left out
  are "no date", "not dated" and "posthumous reprint": 35 pairs. This is the denominator of the main
  check, with nothing else taken away.
- *Right*: the first and the last year read are both within 10 years of the museum's. An end that a
  convention leaves open is not compared (the carnegie convention leaves none open).
- *Departing*: the museum's years are not what its own wording says. Judged without the kit: the
  second reader below is a few lines of arithmetic for wordings that are nothing but years or
  decades in figures, with or without c. (five years either side, as in 84.5 % of the museum's own)
  or a question mark, a date with its month, or whole centuries. Where the museum's years are more
  than 10 years from that, they come from elsewhere (a maker's life: "20th century" as 1925-1993;
  "c. 1945" as 1926-1969). Dates BC depart too: their years are cut to three figures ("c. 3000 BCE"
  as -300).
- *Vague*: parts of centuries and decades, before and after, c. of a century. The museum has no one
  practice for them ("late" has 12 different spans in 20 records), so no convention can agree with
  all of its entries; what is read is printed in every report.
- *Told*: a doubt says so, or nothing was read.

A silent wrong guess would be a miss that is neither told, nor departing, nor vague. There is none.
"""

import csv
import re
from collections import defaultdict
from datetime import date
from pathlib import Path
from typing import NamedTuple

import pytest

from buttonstudy.readings.dates.reading import read_date
from buttonstudy.schemes.conventions import date_convention, date_conventions

TODAY = date(2017, 3, 17)
PAIRS = Path(__file__).parents[4] / "shared" / "open-data" / "date_pairs.csv"
BUTTONS = PAIRS.with_name("museum_buttons.csv")
NEAR = 10

pytestmark = pytest.mark.skipif(
    not PAIRS.is_file(), reason="the open data (date_pairs.csv) is not beside the checkout"
)

VAGUE = re.compile(
    r"early|mid|late|half|before|after|earlier|later|c\. \d+th century", re.IGNORECASE
)
CIRCA = {"object-id": 10}
FIGURES = re.compile(r"(c\. ?|ca\. )?(\d{4})(s?)(?: ?[-–—] ?(\d{4})(s?))?\??")
MONTHS = "January|February|March|April|May|June|July|August|September|October|November|December"
FULL_DATE = re.compile(rf"\d{{1,2}}/\d{{1,2}}/(\d{{4}})|(?:{MONTHS}) (?:\d{{1,2}}, )?(\d{{4}})")
CENTURIES = re.compile(r"(\d+)(?:st|nd|rd|th)(?: ?-(\d+)(?:st|nd|rd|th))? century")

# Convention: pairs right of 1,088, and records right of 8,406, at the least.
RIGHT_AT_LEAST = {
    "buttonstudy": (920, 0.95),
    "quarters": (920, 0.95),
    "thirds": (920, 0.95),
    "carnegie": (920, 0.95),
    "object-id": (900, 0.95),
    "strict-centuries": (920, 0.95),
}


class Pair(NamedTuple):
    """One row: a wording, the museum's years, and the number of records."""

    text: str
    first: int
    last: int
    records: int


def stated_pairs():
    with PAIRS.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return [
        Pair(
            row["date_text"],
            int(row["earliest_year"]),
            int(row["latest_year"]),
            int(row["n_records"]),
        )
        for row in rows
        if re.search(r"\d", row["date_text"]) and row["earliest_year"] and row["latest_year"]
    ]


def second_reader(text, circa=5):
    """What a wording plainly says, by arithmetic on its figures; None where it is not plain."""
    if match := FIGURES.fullmatch(text):
        circa_mark, first, decade, last, last_decade = match.groups()
        widened = circa if circa_mark else 0
        whole = 9 if last_decade or (decade and not last) else 0
        return int(first) - widened, int(last or first) + whole + widened
    if match := FULL_DATE.fullmatch(text):
        year = int(match[1] or match[2])
        return year, year
    if match := CENTURIES.fullmatch(text):
        first, last = int(match[1]), int(match[2] or match[1])
        return max((first - 1) * 100, 1), last * 100 - 1
    return None


def near(first, last, pair):
    return (first is None or abs(first - pair.first) <= NEAR) and (
        last is None or abs(last - pair.last) <= NEAR
    )


def kind_of(pair, reading, circa):
    """Tell right readings from the kinds of miss."""
    read = (reading.earliest, reading.latest)
    plain = second_reader(pair.text, circa)
    if read != (None, None) and near(*read, pair):
        return "right"
    if "BCE" in pair.text:
        return "museum departs: years BC cut to three figures"
    if plain and not near(*plain, pair):
        return "museum departs from its own wording"
    if read == (None, None):
        return "told: not read"
    if reading.doubts:
        return f"told: {reading.doubts[0].kind}"
    return "vague" if VAGUE.search(pair.text) else "silent"


def sorted_out(name):
    convention = date_convention(name)
    kinds = defaultdict(list)
    for pair in stated_pairs():
        reading = read_date(pair.text, convention, TODAY)
        kinds[kind_of(pair, reading, CIRCA.get(name, 5))].append(pair)
    return kinds


def listed(kinds):
    """Write the misses out by kind, for a failing test's message."""
    lines = []
    for kind, pairs in sorted(kinds.items()):
        lines.append(f"{kind}: {len(pairs)} pairs, {records(pairs)} records")
        if kind != "right":
            lines += [f"    {p.text!r}: museum {p.first} to {p.last} ({p.records})" for p in pairs]
    return "\n".join(lines)


def records(pairs):
    return sum(pair.records for pair in pairs)


def test_at_least_95_in_100_wordings_are_read_within_10_years_of_the_museum():
    """Of all records whose wording states a date, nothing left out."""
    kinds = sorted_out("carnegie")
    everything = [pair for pairs in kinds.values() for pair in pairs]
    assert len(everything) == 1088
    assert records(kinds["right"]) / records(everything) >= 0.95, listed(kinds)


def test_where_the_museum_keeps_to_its_wording_the_share_is_higher():
    """Pairs, and records, without those in which the museum departs from its own wording."""
    kinds = sorted_out("carnegie")
    kept = [pair for kind, pairs in kinds.items() if "departs" not in kind for pair in pairs]
    assert records(kinds["right"]) / records(kept) >= 0.985, listed(kinds)
    assert len(kinds["right"]) / len(kept) >= 0.915, listed(kinds)
    certain = [pair for pair in kept if pair not in kinds["vague"]]
    assert len(kinds["right"]) / len(certain) >= 0.95, listed(kinds)


@pytest.mark.parametrize("name", date_conventions())
def test_no_miss_is_silent_under_any_convention(name):
    kinds = sorted_out(name)
    assert kinds["silent"] == [], listed(kinds)


@pytest.mark.parametrize("name", date_conventions())
def test_each_convention_reads_its_share(name):
    kinds = sorted_out(name)
    everything = records(pair for pairs in kinds.values() for pair in pairs)
    pairs, share = RIGHT_AT_LEAST[name]
    assert len(kinds["right"]) >= pairs, listed(kinds)
    assert records(kinds["right"]) / everything >= share, listed(kinds)


def test_plain_wordings_are_read_as_the_second_reader_reads_them():
    """Exactly, whatever the museum entered: years, c., ranges, decades, dates, centuries."""
    convention = date_convention("buttonstudy")
    checked = 0
    for pair in stated_pairs():
        plain = second_reader(pair.text)
        if plain is not None and pair.text != "c. 1700s":
            reading = read_date(pair.text, convention, TODAY)
            first, last = plain
            assert (reading.earliest, reading.latest) == (first, min(last, TODAY.year)), pair.text
            checked += 1
    assert checked > 800


def test_wordings_without_a_date_are_read_as_undated():
    with PAIRS.open(encoding="utf-8", newline="") as file:
        texts = {row["date_text"] for row in csv.DictReader(file)}
    convention = date_convention("carnegie")
    for text in sorted(text for text in texts if not re.search(r"\d", text)):
        reading = read_date(text, convention, TODAY)
        assert reading.earliest is None
        assert reading.basis == "undated" or reading.doubts, text


@pytest.mark.skipif(not BUTTONS.is_file(), reason="museum_buttons.csv is not beside the checkout")
def test_every_date_of_the_museum_buttons_is_read_without_a_doubt():
    """Cooper Hewitt and The Met, CC0: 93 dated records, 24 different wordings."""
    with BUTTONS.open(encoding="utf-8", newline="") as file:
        texts = {row["date_text"] for row in csv.DictReader(file)} - {""}
    assert len(texts) >= 24
    for text in sorted(texts):
        reading = read_date(text, date_convention("buttonstudy"), date(2026, 1, 1))
        assert reading.earliest is not None, text
        assert reading.doubts == (), text
