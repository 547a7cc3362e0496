"""What the tables say, as sentences for a notebook: the main result of each table with its n.

A notebook shows a figure, a table and the sentences from here. They speak of sets in this survey,
give counts first, and say plainly where there is nothing to tell.
"""

import numpy as np
import pandas as pd

from buttonstudy.study.evidence.columns import coded_texts
from buttonstudy.study.evidence.sets import set_keys
from buttonstudy.study.telling.commonest import commonest_words
from buttonstudy.study.telling.words import (
    count,
    field_label,
    heaping_sentence,
    listed,
    number_of,
)

__all__ = [
    "class_findings",
    "dating_findings",
    "examined_findings",
    "heaping_findings",
    "precision_findings",
    "survey_findings",
]


def survey_findings(buttons: pd.DataFrame) -> list[str]:
    """Say how many buttons, sets, files and recorders a survey holds."""
    keys = set_keys(buttons)
    sets = keys.nunique()
    recorders = buttons["recorder"].dropna().unique()
    hands = f" by {number_of(len(recorders), 'named recorder')}" if len(recorders) else ""
    told = [
        f"The survey holds {number_of(len(buttons), 'button record')} in "
        f"{number_of(sets, 'set')}, from {number_of(buttons['file'].nunique(), 'file')}{hands}.",
        "Matching buttons of one set are one piece of evidence, so that sets are counted.",
    ]
    return [*told, *_doubted_dates(buttons, keys)]


def _doubted_dates(buttons: pd.DataFrame, keys: pd.Series) -> list[str]:
    """Say how many sets have a date with a question mark, which counts like any other."""
    codes, bases = coded_texts(buttons, "date_basis")
    marked = np.array(["uncertain" in basis for basis in bases])[codes]
    sets = keys[marked].nunique()
    if not sets:
        return []
    have = "has a date" if sets == 1 else "have dates"
    return [
        f"{number_of(sets, 'set')} {have} marked as uncertain, with a question mark or a word. "
        "They count by the years read: a set dated “1790s?” is among those dated within one "
        "period, although it may be of another."
    ]


def precision_findings(table: pd.DataFrame) -> list[str]:
    """Say to what step most sizes were read, all hands together, from `precision_table`."""
    if table.empty:
        return ["No diameter was read, so nothing can be said of precision."]
    by_step = table.groupby("step", sort=False)["buttons"].sum()
    read = number_of(int(by_step.sum()), "button")
    commonest = by_step[by_step == by_step.max()]
    number = number_of(int(by_step.max()), "button")
    steps = listed(str(step) for step in commonest.index)
    return [
        f"Diameters of {read} were read; the commonest step was {steps} ({number})."
        if len(commonest) == 1
        else f"Diameters of {read} were read; the commonest steps were {steps} ({number} each).",
        "A pattern finer than about twice a step cannot be seen in sizes read to that step.",
    ]


def class_findings(counts: pd.DataFrame) -> list[str]:
    """Say the commonest size class and how many sets lie on an edge."""
    classed = counts[(counts["size_class"] != "no size") & (counts["sets"] > 0)]
    if classed.empty:
        return ["No set could be given a size class."]
    total, edge = float(classed["sets"].sum()), float(classed["borderline_sets"].sum())
    names = classed["size_class"].astype(str).tolist()
    sets = classed["sets"].astype(float).tolist()
    commonest = commonest_words(names, sets, number_of(total, "set"))
    return [
        f"Commonest among the size classes: {commonest}.",
        f"The readings of {number_of(edge, 'set')} reach over the edge of a class, so that their "
        "class is not sure."
        if edge
        else "No reading reaches over the edge of a class.",
    ]


def heaping_findings(table: pd.DataFrame) -> list[str]:
    """Say how far each hand's readings heap on round values; those of too few in one sentence."""
    if table.empty:
        return ["No diameter was read, so nothing can be said of rounding."]
    few = table["few"].astype(bool) & (table["readings"] > 0)
    told = [heaping_sentence(row) for _, row in table[~few].iterrows()]
    if few.any():
        hands = list(dict.fromkeys(table.loc[few, "recorder"].astype(str)))
        told.append(f"Too few readings to judge: {', '.join(hands).removesuffix('.')}.")
    return told


def dating_findings(record: pd.DataFrame) -> list[str]:
    """Say how many sets are dated within one period, and how many cannot be placed."""
    whole = record[record["kind"] == "all"].iloc[0]
    unplaced = float(record[record["kind"] == "undated"].iloc[0]["sets"])
    sets, within = float(whole["sets"]), float(whole["dated_within"])
    told = (
        f"Of {number_of(sets, 'set')}, {count(within)} {'is' if within == 1 else 'are'} dated "
        f"wholly within one period and {count(unplaced)} cannot be placed."
    )
    if sets - within - unplaced < 1:
        return [told]
    return [
        told,
        "The others are spread over the periods that their dates allow: this describes the record "
        "as it is dated, and blurs a sharp change into a gradual one.",
    ]


def examined_findings(table: pd.DataFrame) -> list[str]:
    """Say which features were examined most and least often."""
    known = table[table["sets"] > 0].sort_values("examined", ascending=False)
    if known.empty:
        return ["Nothing was recorded, so nothing can be said of construction."]
    seen, unseen = known[known["examined"] > 0], known[known["examined"] <= 0]
    told = []
    if len(seen):
        most, least = seen["examined"].max(), seen["examined"].min()
        first = f"Of {number_of(float(seen['sets'].iloc[0]), 'set')}, {_examined_in(seen, most)}"
        many = (seen["examined"] == most).sum() > 1
        first += f" {'were' if many else 'was'} examined most often ({number_of(most, 'set')})"
        if least < most:
            rarest = _examined_in(seen, least)
            first += f" and, of what was examined at all, {rarest} least often"
            first += f" ({number_of(least, 'set')})"
        told.append(f"{first}.")
    if len(unseen):
        names = listed(field_label(str(field)) for field in unseen["field"])
        told.append(f"Not examined on any set: {names}.")
    if "mould_hole" in set(seen["field"]):
        told.append("A mould's hole counts as examined also where only its size or fill is noted.")
    return [*told, "What nobody could see is counted apart, never as absent."]


def _examined_in(table: pd.DataFrame, sets: float) -> str:
    alike = table[table["examined"] == sets]["field"]
    return listed(field_label(str(field)) for field in alike)
