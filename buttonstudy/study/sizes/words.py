"""Says in plain sentences how large the buttons are, and how sizes differ between periods."""

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import NOTHING, listed, number_of

__all__ = ["size_comparison_findings", "size_findings"]

_CLOSE = 0.05


def size_findings(quantiles: pd.DataFrame, by_period: pd.DataFrame) -> list[str]:
    """Say the middle size and the spread, then the median of each period.

    Parameters
    ----------
    quantiles
        As :func:`buttonstudy.study.sizes.intervals.size_quantiles` gives it.
    by_period
        As :func:`buttonstudy.study.sizes.intervals.sizes_by_period` gives it.
    """
    known = quantiles.dropna(subset=["size_mm"])
    if known.empty:
        return ["No diameter was read, so nothing can be said of sizes."]
    sets = float(known["sets"].iloc[0])
    if sets < limit("fewest-sets-for-median"):
        have = "has" if sets == 1 else "have"
        return [
            f"Only {number_of(sets, 'set')} {have} a diameter, {_sizes(by_period.iloc[-1])}: too "
            "few to say what is usual."
        ]
    rows = {round(float(row["quantile"]), 2): row for _, row in known.iterrows()}
    middle, low, high = rows[0.5], rows[0.25], rows[0.75]
    told = [
        f"Half of the {number_of(sets, 'set')} with a diameter are no larger than "
        f"{middle['size_mm']:.1f} mm ({middle['size_lines']:.0f} lines){_chance(middle)}. The "
        f"middle half lie between {low['size_mm']:.1f} and {high['size_mm']:.1f} mm."
    ]
    periods = by_period[(by_period["kind"] == "period") & (by_period["sets"] > NOTHING)]
    enough = periods[periods["median_mm"].notna()]
    if len(enough):
        medians = "; ".join(_median(row) for _, row in enough.iterrows())
        told.append(
            f"Median diameters by period, with their {limit('confidence'):.0f} % intervals: "
            f"{medians}."
        )
    few = periods.drop(enough.index)
    if len(few):
        told.append(f"Too few sets for a median: {listed(_few(row) for _, row in few.iterrows())}.")
    return told


def _few(row: pd.Series) -> str:
    """Name a period, and the sizes of the few sets that are dated within it."""
    if not row["sizes_within"]:
        return str(row["period"])
    dated = f"{number_of(int(row['sets_within']), 'set')} dated within it"
    return f"{row['period']} ({dated}, {_sizes(row)})"


def _sizes(row: pd.Series) -> str:
    return f"{listed(str(row['sizes_within']).split('; '))} mm"


def _chance(row: pd.Series) -> str:
    if pd.isna(row["low_mm"]):
        return ""
    span = f"{row['low_mm']:.1f} to {row['high_mm']:.1f} mm"
    return f"; with {number_of(row['sets'], 'set')}, anything from {span} is possible"


def _median(row: pd.Series) -> str:
    median, low, high = (row[f"median{end}_mm"] for end in ("", "_low", "_high"))
    sets = number_of(float(row["sets"]), "set")
    if row["few"] or pd.isna(low):
        return f"{row['period']}, {median:.1f} mm ({sets}, too few for an interval)"
    return f"{row['period']}, {median:.1f} mm ({low:.1f} to {high:.1f}; {sets})"


def size_comparison_findings(table: pd.DataFrame) -> list[str]:
    """Say how the sizes of two periods differ.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.sizes.comparison.compare_sizes` gives it.
    """
    if table.empty:
        fewest = int(limit("few-sets-for-sizes"))
        return [
            f"Sizes of periods cannot be compared: no two periods have as many as {fewest} sets "
            f"with a size and a date."
        ]
    weighted, within = table.iloc[0], table.iloc[1]
    told = [_compared(weighted)]
    if pd.notna(weighted["superiority"]):
        told.append(
            "Sets with wide dates count in both periods in part, which draws the two together."
        )
        told.append(f"Only sets dated wholly within one of the two: {_within(within)}")
    return told


def _compared(row: pd.Series) -> str:
    first, second = (
        f"{number_of(row[f'sets_{name}'], 'set')} dated to {row[name]}"
        for name in ("first", "second")
    )
    if pd.isna(row["superiority"]):
        fewest = f"{limit('fewest-sets-for-median'):.0f}"
        return f"Sizes cannot be compared, for want of {fewest} sets in each: {first} and {second}."
    return f"Sizes compared: {first} and {second}. {_capital(_chance_larger(row))}"


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def _within(row: pd.Series) -> str:
    sets = f"{row['sets_first']:.0f} and {row['sets_second']:.0f} sets"
    if pd.isna(row["superiority"]):
        return f"{sets}, too few to compare."
    if pd.isna(row["superiority_low"]):
        medians = f"{row['median_first_mm']:.1f} and {row['median_second_mm']:.1f} mm"
        return f"{sets}, too few for more than their medians, {medians}."
    return f"{sets}; {_chance_larger(row)}"


def _chance_larger(row: pd.Series) -> str:
    """Say the chance of superiority as cases of a hundred, then the medians."""
    chance = (
        f"of two sets taken at random, one from each, the later is the larger "
        f"{_times(row['superiority'])} times in 100"
    )
    medians = f"Their medians are {row['median_first_mm']:.1f} and {row['median_second_mm']:.1f} mm"
    if pd.isna(row["superiority_low"]):
        return f"{chance}; too few sets to say how sure that is. {medians}."
    low, high = row["superiority_low"], row["superiority_high"]
    verdict = (
        "so that chance alone could make the difference"
        if low <= 0.5 <= high
        else "which chance alone would hardly make"
    )
    told = f"{chance} ({_times(low)} to {_times(high)} is possible; 50 is no difference)"
    return f"{told}, {verdict}. {medians}{_difference(row)}."


def _times(chance: float) -> str:
    return f"{100 * chance:.0f}"


def _difference(row: pd.Series) -> str:
    if pd.isna(row["difference_low_mm"]):
        return ""
    low, high = row["difference_low_mm"], row["difference_high_mm"]
    if low > -_CLOSE and high < _CLOSE:
        return ", the same"
    if low * high < 0:
        return (
            f"; the later median may be anything from {-low:.1f} mm smaller to {high:.1f} mm larger"
        )
    ends = sorted((abs(low), abs(high)))
    way = "larger" if high > 0 else "smaller"
    middle = f"{abs(row['difference_mm']):.1f} mm {way}"
    return f"; the later median is {middle} ({ends[0]:.1f} to {ends[1]:.1f} mm)"
