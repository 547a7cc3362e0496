"""Tables in the form in which a person reads them: a row for a period, a column for a term.

The study's own tables are long, a row for each period and term with every number, and are saved
whole. Beside a figure a reader wants the counts side by side.
"""

from collections.abc import Hashable, Mapping

import pandas as pd

from buttonstudy.study.evidence.dating import ALL_PERIODS, OUTSIDE, UNDATED
from buttonstudy.study.telling.words import HALF_A_SET, count, per_cent, range_of, term_label

__all__ = ["counts_side_by_side", "for_readers"]

_ROW_WORDS = {
    OUTSIDE: "outside the periods",
    UNDATED: "without a date that can be placed",  # no date, or one with an open end
    ALL_PERIODS: "all sets",
}
_KIND_WORDS = {"unknown": "group {}", "all": "all sets"}
_FOR_MACHINES = ("kind", "few", "field", "level")


def for_readers(table: pd.DataFrame) -> pd.DataFrame:
    """Leave out what only programs need, and rows that stand for nothing.

    Parameters
    ----------
    table
        A table of the study, with or without the columns ``kind``, ``few`` and ``field``.

    Returns
    -------
    DataFrame
        The other columns. ``field`` stays where no ``label`` says the same in words. Sets that
        lie outside the periods or have no date get words for their row, or no row if there are
        none.
    """
    dropped = [name for name in _FOR_MACHINES if name in table]
    if "label" not in table and "field" in dropped:
        dropped.remove("field")
    shown = _worded_rows(table).drop(columns=dropped)
    return shown.reset_index(drop=True)


def counts_side_by_side(shares: pd.DataFrame) -> pd.DataFrame:
    """Set the counts of all terms side by side, one row for each period or group.

    Parameters
    ----------
    shares
        From `shares_by_period` or `shares_crossed`: long, with a row for each term.

    Returns
    -------
    DataFrame
        The period or group, ``sets examined``, ``no answer``, and a column for each term, the
        commonest first: its sets, and where there are enough of them its share with the 95 %
        interval (Wilson). Counts of sets that are shared out over periods are rounded.

    Examples
    --------
    >>> row = {"group": "wood", "kind": "group", "term": "open", "sets": 39.0, "examined": 32.0,
    ...        "with_term": 8.0, "share": 0.25, "low": 0.13, "high": 0.42, "few": False}
    >>> counts_side_by_side(pd.DataFrame([row])).iloc[0].to_list()
    ['wood', '32', '7', '8 (25 %, 13 to 42 %)']
    """
    if shares.empty:
        return pd.DataFrame({"sets examined": [], "no answer": []}, dtype="str")
    worded = _worded_rows(shares)
    head = str(worded.columns[0])
    first = worded.drop_duplicates(head).set_index(head)
    wide = pd.DataFrame(
        {
            "sets examined": [_rounded(number) for number in first["examined"]],
            "no answer": [_rounded(number) for number in first["sets"] - first["examined"]],
        },
        index=first.index,
    )
    cells = {(row[head], row["term"]): _cell(row) for row in worded.to_dict("records")}
    for term in _by_frequency(worded):
        wide[term_label(term)] = [cells.get((name, term), "") for name in first.index]
    return wide.reset_index()


def _worded_rows(table: pd.DataFrame) -> pd.DataFrame:
    if "kind" not in table:
        return table
    head, kind = table.columns[0], table["kind"].astype(str)
    words = [_row_words(str(name), of) for name, of in zip(table[head], kind)]
    shown = table.assign(**{str(head): words})
    beside = kind.isin([OUTSIDE, UNDATED, "unknown"])
    return shown[~(beside & (shown["sets"] < HALF_A_SET))] if "sets" in shown else shown


def _row_words(name: str, kind: str) -> str:
    return _ROW_WORDS.get(name) or _KIND_WORDS.get(kind, "{}").format(name)


def _by_frequency(worded: pd.DataFrame) -> list[str]:
    whole = worded[worded["kind"] == "all"]
    ordered = (whole if len(whole) else worded).sort_values(
        "with_term", ascending=False, kind="stable"
    )
    return list(dict.fromkeys(ordered["term"].astype(str)))


def _cell(row: Mapping[Hashable, object]) -> str:
    found = _number(row["with_term"])
    if not _number(row["examined"]) >= HALF_A_SET:
        return ""
    if row["few"]:
        return _rounded(found)
    share = per_cent(_number(row["share"]))
    return f"{_rounded(found)} ({share}, {range_of(_number(row['low']), _number(row['high']))})"


def _number(value: object) -> float:
    return float(value) if isinstance(value, (int, float)) else float("nan")


def _rounded(number: float) -> str:
    if 0 < number < HALF_A_SET:
        return "under 1"
    return count(number).removeprefix("about ")
