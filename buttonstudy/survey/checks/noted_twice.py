"""One button noted in two files: proposed where chance could hardly make two so alike.

Two records are held against each other field by field, in the fields that both record clearly.
None may contradict, and enough must agree. Fields that most buttons share say little, so each
agreement counts by how rare the shared value is in the two surveys together: the product of the
shares is how often two buttons would agree by chance, and it must be small beside the number of
pairs that were looked at. Features go together (a shell is of metal), which the product leaves
out; so only so many fields count in full, and the chance asked for is small.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.schemes import fields, limit
from buttonstudy.survey.checks.finding import Finding, Floats, is_clear, numbers, row_names

_LEFT_OUT = ("cover_condition",)  # it changes between two looks


_Compared = list[tuple[npt.NDArray[np.intp], Floats]]


def noted_twice(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Propose pairs of records in two files that are perhaps one button; nothing is merged."""
    if buttons["file"].nunique() < 2:
        return
    compared = _compared(buttons)
    files = pd.factorize(buttons["file"])[0]
    low, high = numbers(buttons, "diameter_mm_low"), numbers(buttons, "diameter_mm_high")
    alike = _telling_of_date(buttons) + _telling_of_size(low, high)
    surprise = np.log(len(buttons) ** 2 / 2 / limit("twice-chance"))
    found: dict[int, tuple[int, int]] = {}
    for one, two in _alike_in_date_and_cover(buttons, files):
        fits = (low[one] <= high[two]) & (low[two] <= high[one])
        one, two = one[fits], two[fits]
        shared, telling = np.zeros(len(one), dtype=np.intp), alike[one]
        for codes, rarity in compared:
            if not len(one):
                break
            first, second = codes[one], codes[two]
            same = (first == second) & (first >= 0)
            shared, telling = shared + same, telling + np.where(same, rarity[one], 0.0)
            kept = same | (first < 0) | (second < 0)
            if not kept.all():
                one, two, shared, telling = one[kept], two[kept], shared[kept], telling[kept]
        enough = (shared >= limit("twice-fewest-fields")) & (telling >= surprise)
        for place, other, count in zip(one[enough], two[enough], shared[enough]):
            for here, there in ((int(place), int(other)), (int(other), int(place))):
                if count > found.get(here, (0, 0))[1]:
                    found[here] = (there, int(count))
    names = row_names(buttons) if found else []
    for place, (other, count) in sorted(found.items()):
        yield Finding(
            "perhaps-noted-twice",
            place,
            f"This record and that of {names[other]} have the same date, sizes that "
            f"agree, and {count} other features in common with none that differs.",
            "button_id",
        )


def _compared(buttons: pd.DataFrame) -> _Compared:
    """Give each compared field as codes, -1 where not clear, and how telling each value is."""
    compared: _Compared = []
    for one in fields():
        if one.kind == "term" and one.field not in _LEFT_OUT:
            values = buttons[one.field].cat.codes.to_numpy().astype(np.intp)
            values = np.where(is_clear(buttons, one.field), values, -1)
        elif one.kind == "length" and one.field != "diameter":
            whole = np.round(numbers(buttons, f"{one.field}_mm") / limit("twice-size-grain"))
            values = np.where(np.isnan(whole), -1, np.nan_to_num(whole)).astype(np.intp)
        else:
            continue
        compared.append((values, _telling(values)))
    return compared


def _telling(codes: npt.NDArray[np.intp]) -> Floats:
    """Give how telling each record's value is: the rarer the more; nothing where not clear."""
    counts = np.bincount(codes[codes >= 0], minlength=1)
    share = np.where(codes >= 0, counts[codes] / max(counts.sum(), 1), 1.0)
    return np.minimum(-np.log(np.maximum(share, 1e-9)), limit("twice-most-telling"))


def _telling_of_date(buttons: pd.DataFrame) -> Floats:
    dates = buttons.groupby(["year_from", "year_to"], sort=False, dropna=True).ngroup()
    return _telling(dates.fillna(-1).to_numpy().astype(np.intp))


def _telling_of_size(low: Floats, high: Floats) -> Floats:
    """Give the like for sizes: the share of all sizes that would agree with this one."""
    known = ~np.isnan(low)
    begin, end = np.sort(low[known]), np.sort(high[known])
    agreeing = np.searchsorted(begin, high, "right") - np.searchsorted(end, low, "left")
    share = np.where(known, np.maximum(agreeing, 1) / max(len(begin), 1), 1.0)
    return np.minimum(-np.log(share), limit("twice-most-telling"))


def _alike_in_date_and_cover(
    buttons: pd.DataFrame, files: npt.NDArray[np.intp]
) -> Iterator[tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]]:
    """Give the pairs of records in two files that share date and cover, group by group.

    A group with too many pairs is passed over: what so many share tells no two of them apart.
    """
    known = (
        buttons["year_from"].notna()
        & buttons["diameter_mm"].notna()
        & is_clear(buttons, "cover_material")
    ).to_numpy(dtype=bool)
    places = np.flatnonzero(known)
    keys = ["year_from", "year_to", "cover_material", "cover_colour", "decoration"]
    most = limit("twice-largest-group")
    groups = buttons.iloc[places].groupby(keys, sort=False, dropna=False, observed=True).ngroup()
    order = np.argsort(groups.to_numpy(), kind="stable")
    cuts = np.flatnonzero(np.diff(groups.to_numpy()[order])) + 1
    for members in np.split(places[order], cuts):
        if 1 < len(members) <= most and (files[members] != files[members[0]]).any():
            one, two = np.triu_indices(len(members), 1)
            apart = files[members[one]] != files[members[two]]
            yield members[one[apart]], members[two[apart]]
