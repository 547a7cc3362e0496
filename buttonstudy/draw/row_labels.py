"""Which rows of a table a figure shows, and what they are called there."""

import pandas as pd

from buttonstudy.draw.lettering import has_gaps, shortened
from buttonstudy.study.evidence.dating import ALL_PERIODS, OUTSIDE, UNDATED
from buttonstudy.study.shares.crossed import ALL_GROUPS
from buttonstudy.study.telling.words import HALF_A_SET, NOTHING, number_of, term_label

__all__ = ["labelled", "left_out_words", "period_words", "ruled", "split_rows", "with_years"]

_PLAIN = ("period", "group")
_LABELS = {
    ALL_PERIODS: "All sets",
    ALL_GROUPS: "All sets",
    OUTSIDE: "Outside the periods",
    UNDATED: "Cannot be placed",
}


def labelled(table: pd.DataFrame, names: str, *, by_years: bool = False) -> pd.DataFrame:
    """Give the rows worth showing a column ``label``.

    Left out are the periods or groups before the first and after the last that hold anything
    (half a set or more, if any has as many), and the rows for sets outside, undated or unknown
    where there are none.

    Parameters
    ----------
    table
        With ``kind`` and ``sets``, as the study's tables by period or group have it.
    names
        The column with the periods' or groups' names; they may stand in it once for each term.
    by_years
        Label periods by their first and last years, unless their names are as short.
    """
    by_name = table.groupby(names, sort=False)["sets"].max()
    kinds = table.drop_duplicates(names)["kind"].isin(_PLAIN).to_numpy()
    most = by_name[kinds].max()
    least = HALF_A_SET if most >= HALF_A_SET else NOTHING
    held_by = (by_name >= least).to_numpy() & kinds
    within = (held_by.cumsum() > 0) & (held_by[::-1].cumsum()[::-1] > 0)
    kept = by_name.index[within | ((by_name >= least).to_numpy() & ~kinds)]
    rows = table[table[names].isin(kept)].copy()
    rows["label"] = [
        _LABELS.get(str(name), shortened(term_label(str(name)))) for name in rows[names]
    ]
    periods = rows[rows["kind"] == "period"]
    if by_years and not periods.empty:
        years = periods.apply(lambda row: _years(row["year_from"], row["year_to"]), axis=1)
        if years.str.len().max() < periods["label"].str.len().max():
            rows.loc[periods.index, "label"] = years
    return rows


def _years(year_from: int, year_to: int) -> str:
    """Name years; those before the year 1 as astronomers count them, with a minus sign."""
    told = [f"{year:.0f}".replace("-", "−") for year in dict.fromkeys((year_from, year_to))]
    return (" to " if year_from < 0 else "–").join(told)


def ruled(rows: pd.DataFrame) -> list[bool]:
    """Say for each row whether it is the first one after the periods or groups."""
    plain = rows["kind"].isin(_PLAIN).tolist()
    return [before and not now for now, before in zip(plain, [False, *plain])]


def split_rows(rows: pd.DataFrame, number: int) -> pd.DataFrame:
    """Give the rows that a page of ``number`` rows holds: the first ones, and always the last."""
    if number >= len(rows):
        return rows
    return pd.concat([rows[: number - 1], rows[-1:]])


def left_out_words(rows_left_out: int, *texts: str) -> list[str]:
    """Say what a caption owes its reader: rows that did not fit, letters not in the typeface."""
    told = []
    if rows_left_out:
        told.append(f"{number_of(rows_left_out, 'further row')} in the table only.")
    if has_gaps(*texts):
        told.append("An open box stands for a letter that the figure's typeface lacks.")
    return told


def with_years(label: str, year_from: int, year_to: int) -> str:
    """Put a period's years after its name, unless the name tells them.

    Examples
    --------
    >>> with_years("Regency", 1811, 1820), with_years("1840s", 1840, 1849)
    ('Regency, 1811–1820', '1840s')
    """
    if str(year_from)[:-1] in label:
        return label
    return f"{label}, {year_from}–{year_to}"


def period_words(rows: pd.DataFrame) -> list[str]:
    """Say which years the periods shown stand for, where their names do not tell."""
    periods = rows[rows["kind"] == "period"].drop_duplicates("period")
    told = [
        with_years(str(row["period"]), row["year_from"], row["year_to"])
        for row in periods.to_dict("records")
    ]
    return [f"Periods: {'; '.join(told)}."] if told != periods["period"].tolist() else []
