"""Says results in plain sentences that stay true when they stand alone in a newsletter.

Counts come first and name what was counted. The range that chance allows follows in figures, then
what the sets that nobody examined could change. Below the limit of few sets there is no
percentage. Everything is said of the sets in this survey, since no interval covers which buttons
survived and were collected.
"""

import math
from collections.abc import Iterable, Sequence

import pandas as pd

from buttonstudy.schemes import fields, limit
from buttonstudy.study.evidence.answers import ABSENT
from buttonstudy.study.evidence.columns import texts
from buttonstudy.study.evidence.holes import OF_HOLES
from buttonstudy.study.evidence.sets import set_keys

__all__ = [
    "HALF_A_SET",
    "NOTHING",
    "WIDE_DATES_SHARED",
    "as_common_as",
    "count",
    "field_label",
    "heaping_sentence",
    "in_survey",
    "in_ten",
    "in_tenths",
    "listed",
    "number_of",
    "per_cent",
    "range_of",
    "some_of",
    "source_line",
    "span_in_words",
    "term_label",
    "wilson_words",
]

WIDE_DATES_SHARED = "Wide dates are shared out over the periods."
"""What captions say of figures by period."""

NOTHING = 1e-6
"""Sums of weights up to this are nothing: what is left where shares of sets cancel."""

HALF_A_SET = 0.5
"""Sums of weights below this round to no set, and are not shown as one."""


def field_label(field: str) -> str:
    """Give a field's label as it stands inside a sentence.

    Examples
    --------
    >>> field_label("mould_material")
    'mould material'
    """
    label = next((known.label for known in fields() if known.field == field), field)
    return label[:1].lower() + label[1:].replace("_", " ")


def in_survey(field: str) -> str:
    """Say which sets of the survey a field is asked of.

    Examples
    --------
    >>> in_survey("mould_material"), in_survey("hole_fill")
    ('in this survey', 'in this survey whose mould is not noted as without a hole')
    """
    which = " whose mould is not noted as without a hole" if field in OF_HOLES else ""
    return f"in this survey{which}"


def wilson_words() -> str:
    """Say in a caption what the intervals of counted shares are."""
    return (
        f"Intervals are {limit('confidence'):.0f} % Wilson intervals for the counts shown; they "
        f"cover chance alone."
    )


def term_label(term: str) -> str:
    """Give a term as readers see it: "absent" is "none"."""
    return "none" if term == ABSENT else term


def count(number: float) -> str:
    """Word a count of sets; a sum of weights is rounded and says so.

    Examples
    --------
    >>> count(12.0), count(12.4), count(0.3), count(0)
    ('12', 'about 12', 'fewer than 1', '0')
    """
    if abs(number - round(number)) < NOTHING:
        return f"{round(number):,}"
    return f"about {math.floor(number + 0.5):,}" if number >= HALF_A_SET else "fewer than 1"


def number_of(number: float, one: str, many: str | None = None) -> str:
    """Word a count with its noun.

    Examples
    --------
    >>> number_of(1.2, "set"), number_of(20, "set"), number_of(2, "size class", "size classes")
    ('about 1 set', '20 sets', '2 size classes')
    """
    single = count(number).removeprefix("about ").removeprefix("fewer than ") == "1"
    return f"{count(number)} {one if single else many or one + 's'}"


def per_cent(share: float) -> str:
    """Word a share, keeping 0 and 100 for none and all.

    Examples
    --------
    >>> per_cent(0.307), per_cent(0.0), per_cent(0.002), per_cent(0.998)
    ('31 %', '0 %', 'under 1 %', 'over 99 %')
    """
    if 0 < share < 0.005:
        return "under 1 %"
    return "over 99 %" if 0.995 <= share < 1 else f"{100 * share:.0f} %"


def in_tenths(share: float) -> str:
    """Word one share in tenths, where few sets allow no percentage.

    Examples
    --------
    >>> in_tenths(0.42), in_tenths(0.0), in_tenths(0.03), in_tenths(1.0)
    ('about 4 in 10', 'none', 'fewer than 1 in 20', 'all')
    """
    tenths = round(share * 10)
    if tenths == 0:
        return "none" if share == 0 else "fewer than 1 in 20"
    if tenths == 10:
        return "all" if share == 1 else "more than 19 in 20"
    return f"about {tenths} in 10"


def range_of(low: float, high: float) -> str:
    """Word a range of shares.

    Examples
    --------
    >>> range_of(0.186, 0.464)
    '19 to 46 %'
    """
    return f"{100 * low:.0f} to {100 * high:.0f} %"


def in_ten(low: float, high: float) -> str:
    """Word a range of shares in whole tenths, widened to them, where percentages say too much.

    Examples
    --------
    >>> in_ten(0.12, 0.41), in_ten(0.0, 0.08), in_ten(0.93, 1.0), in_ten(0.31, 0.32)
    ('1 to 5 in 10', 'none to 1 in 10', '9 in 10 to all', '3 to 4 in 10')
    """
    first, last = math.floor(low * 10 + 1e-9), math.ceil(high * 10 - 1e-9)
    if first <= 0 and last >= 10:
        return "none to all"
    if last >= 10:
        return "all" if first >= 10 else f"{first} in 10 to all"
    return f"{'none' if first <= 0 else first} to {max(last, 1)} in 10"


def span_in_words(low: float, high: float, few: bool) -> str:
    """Word a range of shares: in tenths where few sets allow no percentages.

    Examples
    --------
    >>> span_in_words(0.12, 0.41, False), span_in_words(0.12, 0.41, True)
    ('12 to 41 %', '1 to 5 in 10')
    >>> span_in_words(0.031, 0.034, False)
    '3 %'
    """
    if few:
        return in_ten(low, high)
    return per_cent(high) if f"{100 * low:.0f}" == f"{100 * high:.0f}" else range_of(low, high)


def listed(words: Iterable[str]) -> str:
    """Join words as a sentence does.

    Examples
    --------
    >>> listed(["bone", "wood", "brass"])
    'bone, wood and brass'
    """
    words = list(words)
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


def as_common_as(trials: float) -> str:
    """Say how common a thing may still be that was met in none of ``trials`` sets.

    The upper limit is the exact one-sided one at the level of the limit ``confidence``,
    1 - 0.05^(1/n) for 95 % (the exact form of Hanley & Lippman-Hand's rule of three, 1983,
    Journal of the American Medical Association 249:1743).

    Examples
    --------
    >>> as_common_as(20)
    'it could still be as common as 1 in 7'
    """
    if trials <= 0:
        return "nothing can be said of how common it is"
    upper = 1 - (1 - limit("confidence") / 100) ** (1 / trials)
    return f"it could still be as common as 1 in {max(math.floor(1 / upper), 1)}"


def some_of(names: Sequence[str]) -> str:
    """Join names as a sentence does; past the limit ``named-at-most``, say how many more.

    Examples
    --------
    >>> some_of(["bone", "wood"]), some_of(list("abcdefghi"))
    ('bone and wood', 'a, b, c, d, e, f and 3 more')
    """
    first = list(names[: int(limit("named-at-most"))])
    more = len(names) - len(first)
    return listed([*first, f"{more} more"] if more else first)


def heaping_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.sizes.heaping.heaping_by_recorder`.

    Examples
    --------
    >>> heaping_sentence(pd.Series({"recorder": "A. Teal", "unit": "mm", "step": "1 mm",
    ...     "readings": 80, "on_round": 44, "low": 0.44, "chance": 0.2, "few": False}))
    "Of 80 sizes in mm by A. Teal, read to 1 mm at the finest, 44 end on a round value; about ..."
    """
    read = f"in {row['unit']} by {row['recorder']}, read to {row['step']} at the finest,"
    if not row["readings"]:
        return f"None of the sizes {read} can be held against the ruler's divisions."
    expected = count(row["chance"] * row["readings"])
    whole = expected[0].isdigit()
    end = "ends" if row["on_round"] == 1 else "end"
    first = (
        f"Of {number_of(row['readings'], 'size')} {read} {count(row['on_round'])} {end} on a "
        f"round value; {'about ' if whole else ''}{expected} would by chance."
    )
    if row["few"]:
        return f"{first} That is too few to judge."
    if row["low"] <= row["chance"]:
        return f"{first} Chance alone could give so many."
    maker = (
        " Even lines are also the trade sizes, so that this may be the makers' doing."
        if row["unit"] == "lines"
        else " Peaks at those sizes may be the ruler's."
    )
    return f"{first} That is more than chance gives.{maker}"


def source_line(buttons: pd.DataFrame) -> str:
    """Name the survey files with the numbers of sets and buttons, for a figure's foot.

    Examples
    --------
    >>> source_line(pd.DataFrame({"file": ["a.xlsx", "b.csv"], "set_id": ["1", "1"]}))
    'Survey files a.xlsx, b.csv; 2 sets, 2 buttons.'
    """
    names = list(dict.fromkeys(name for name in texts(buttons, "file") if name))
    sets = set_keys(buttons).max() + 1 if len(buttons) else 0
    numbers = f"{number_of(sets, 'set')}, {number_of(len(buttons), 'button')}."
    if not names:
        return f"One survey; {numbers}"
    return f"Survey {'files' if len(names) > 1 else 'file'} {_some(names)}; {numbers}"


def _some(names: Sequence[str]) -> str:
    most = int(limit("files-named"))
    if len(names) <= most:
        return ", ".join(names)
    return f"{', '.join(names[: most - 1])} and {len(names) - most + 1} more"
