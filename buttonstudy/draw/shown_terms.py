"""Which terms and groups of a table of shares a figure draws, and what it says of the others.

A small figure has no room for every term. The commonest stand first, so that what does not fit is
the rarest; a term that a single set has gets no panel, since one set makes no comparison, and so a
slip of spelling takes nobody's place. Nothing is passed over in silence: the figure itself names
what it does not draw, with its numbers of sets.
"""

from collections.abc import Sequence

import pandas as pd

from buttonstudy.draw.lettering import shortened
from buttonstudy.draw.marks import whole
from buttonstudy.schemes import fields, limit, vocabulary
from buttonstudy.study.evidence.answers import ABSENT
from buttonstudy.study.shares.tally import with_shares
from buttonstudy.study.telling.words import NOTHING, listed, number_of, some_of, term_label

__all__ = [
    "commonest_first",
    "examined_rows",
    "not_drawn_words",
    "rare_groups_together",
    "together_words",
    "unknown_words",
    "worth_a_panel",
]

_SUMMED = ("sets", "examined", "with_term", "not_examined", "unclear", "not_recorded")


def commonest_first(table: pd.DataFrame) -> list[str]:
    """Give the terms by how many examined sets have them, ties in the table's order.

    Examples
    --------
    >>> table = pd.DataFrame({"term": ["bone", "wood"], "kind": "all", "with_term": [3.0, 8.0]})
    >>> commonest_first(table)
    ['wood', 'bone']
    """
    overall = table[table["kind"] == "all"]
    order = overall["with_term"].round(6).sort_values(ascending=False, kind="stable").index
    return list(dict.fromkeys(overall.loc[order, "term"]))


def worth_a_panel(rows: pd.DataFrame, terms: Sequence[str]) -> list[str]:
    """Give the terms that more than a single set has; all of them if there is none such."""
    overall = rows[rows["kind"] == "all"].set_index("term")["with_term"]
    least = limit("drawn-fewest-sets")
    return [term for term in terms if overall[term] >= least - NOTHING] or list(terms)


def examined_rows(rows: pd.DataFrame, names: str) -> pd.DataFrame:
    """Leave out the groups of which no set was examined; periods stay, and so does all."""
    most = rows.groupby(names, sort=False)["examined"].transform("max")
    return rows[(most > NOTHING) | rows["kind"].isin(["period", "all"])]


def rare_groups_together(rows: pd.DataFrame, by: str) -> tuple[pd.DataFrame, list[str]]:
    """Put terms of hardly any sets into one row, where there are several of them.

    Parameters
    ----------
    rows
        As :func:`buttonstudy.study.shares.crossed.shares_crossed` gives them, with ``label``.
    by
        The field that makes the groups; counts and lengths have an order and stay apart.

    Returns
    -------
    rows : DataFrame
        With their counts added up and the shares of these, in the place of the first of them.
    names : list of str
        The groups that were put together; empty if the rows are as they were.
    """
    sets = rows[rows["kind"] == "group"].groupby("group", sort=False)["examined"].max()
    rare = [str(name) for name in sets.index[sets < limit("drawn-fewest-sets") - NOTHING]]
    if len(rare) < 2 or not _has_terms(by):
        return rows, []
    together = rows["group"].isin(rare)
    summed = rows[together].groupby("term", sort=False)[list(_SUMMED)].sum()
    first = rows[together].drop_duplicates("term").copy()
    for name in _SUMMED:
        first[name] = first["term"].map(summed[name])
    first["label"] = f"{len(rare)} others"
    return pd.concat([rows[~together], with_shares(first)]).sort_index(kind="stable"), rare


def together_words(names: Sequence[str]) -> str:
    """Name the groups that share one row, the first of them where there are many.

    Examples
    --------
    >>> together_words(["horn", "ivory"])
    '2 others: horn and ivory.'
    """
    return f"{len(names)} others: {some_of([shortened(name) for name in names])}."


def not_drawn_words(rows: pd.DataFrame, terms: Sequence[str]) -> str:
    """Name the terms that a figure does not draw, with how many sets have them.

    Examples
    --------
    >>> table = pd.DataFrame({"term": ["bone", "wood"], "kind": "all", "with_term": [3.0, 8.0]})
    >>> not_drawn_words(table, ["bone"])
    'Not drawn: bone 3 sets.'
    """
    if not terms:
        return ""
    overall = rows[rows["kind"] == "all"].set_index("term")["with_term"]
    numbers = [number_of(whole(overall[terms[0]]), "set")]
    most = int(limit("named-at-most"))
    numbers += [f"{whole(overall[term])}" for term in terms[1:most]]
    told = [f"{shortened(term_label(term))} {number}" for term, number in zip(terms, numbers)]
    more = len(terms) - len(told)
    others = f", and {number_of(more, 'more term')}" if more else ""
    return f"Not drawn: {', '.join(told)}{others}."


def unknown_words(field: str, terms: Sequence[str]) -> list[str]:
    """Say which of the terms are the survey's own and none of the kit's.

    Examples
    --------
    >>> unknown_words("mould_material", ["bone", "pastbord"])
    ['“pastbord” is the survey’s own term or wording, not the kit’s.']
    """
    if not _has_terms(field):
        return []
    known_terms = {one.term for one in vocabulary().terms(field)} | {ABSENT}
    own = [f"“{shortened(term)}”" for term in terms if term not in known_terms]
    if not own:
        return []
    if len(own) > limit("named-at-most"):
        return [f"{len(own)} are the survey’s own terms or wordings, not the kit’s."]
    if len(own) == 1:
        return [f"{own[0]} is the survey’s own term or wording, not the kit’s."]
    return [f"{listed(own)} are the survey’s own terms or wordings, not the kit’s."]


def _has_terms(field: str) -> bool:
    return all(known.kind == "term" for known in fields() if known.field == field)
