"""What can be doubtful about a size, in words that say what was read and what to do."""

from collections.abc import Iterable

from buttonstudy.readings.doubt import Doubt

__all__ = [
    "bound",
    "date",
    "few_figures",
    "fraction_of_metric",
    "impossible",
    "lines_or_length",
    "maybe_paris",
    "negative",
    "no_unit",
    "not_read",
    "odd_fraction",
    "prose",
    "quoted",
    "reversed_range",
    "too_long",
    "too_many",
    "uncertain",
    "unclear",
    "unknown_unit",
    "words_left",
    "zero",
]

_SHOWN = 60
_UNITS = "such as 16 mm, 5/8 in or 24 L"


def quoted(text: str) -> str:
    """Put a text in quotation marks, on one line and shortened."""
    flat = " ".join(text.split())
    return f'"{flat[: _SHOWN - 1]}…"' if len(flat) > _SHOWN else f'"{flat}"'


def no_unit(written: str) -> Doubt:
    """No unit stands with the size, nor in the heading."""
    return Doubt(
        "size-no-unit",
        f"{quoted(written)} has no unit, neither in the cell nor in the heading.",
        f"Write the unit with the size, {_UNITS}, or name it in the heading.",
    )


def lines_or_length(written: str) -> Doubt:
    """An L before the size, and no other unit."""
    return Doubt(
        "size-no-unit",
        f"{quoted(written)} has no unit: an L before a figure may mean lines or length.",
        "Write 24 L for lines, or give the length its unit.",
    )


def not_read(written: str) -> Doubt:
    """No figure at all."""
    return Doubt(
        "size-not-read",
        f"No size was found in {quoted(written)}.",
        f"Write a size with its unit, {_UNITS}, or leave the cell blank.",
    )


def too_long(characters: int) -> Doubt:
    """Far more text than a size needs."""
    return Doubt(
        "size-too-long",
        f"The cell holds {characters:,} characters, too many for a size.",
        "Keep the size in this cell and move the rest to the notes.",
        fatal=True,
    )


def too_many(lengths: int) -> Doubt:
    """More sizes than one button can have."""
    return Doubt(
        "size-too-many",
        f"The cell holds {lengths} sizes, too many for one button.",
        "Give each button its own row, and keep only its size in this cell.",
    )


def prose(words: Iterable[str]) -> Doubt:
    """Many words before the first figure."""
    return Doubt(
        "size-prose",
        f"The cell reads like a sentence, not like a size: {quoted(' '.join(words))}.",
        "Write the size alone, and move the rest to the notes.",
    )


def unclear(written: str) -> Doubt:
    """Figures whose relation is not said."""
    return Doubt(
        "size-unclear",
        f"It is not clear how {quoted(written)} is meant.",
        "Write one size with its unit; part several sizes with commas, or join them with x.",
    )


def unknown_unit(written: str) -> Doubt:
    """A unit that buttons are not measured in."""
    return Doubt(
        "size-unit-not-known",
        f"The unit in {quoted(written)} is not one that the kit reads as a size.",
        f"Write the size in mm, cm, inches or lines, {_UNITS}.",
    )


def negative(written: str) -> Doubt:
    """A minus sign before a size."""
    return Doubt(
        "size-negative", f"{quoted(written)} is below zero.", "Write the size as measured."
    )


def zero(written: str) -> Doubt:
    """A size of nothing."""
    return Doubt(
        "size-zero",
        f"{quoted(written)} is no size.",
        "Leave the cell blank if the button was not measured.",
    )


def impossible(written: str, mm: float) -> Doubt:
    """A size beyond what is possible."""
    figure = f"{mm:,.0f}" if mm >= 1000 else f"{mm:.4g}"
    return Doubt(
        "size-impossible",
        f"{quoted(written)} would be {figure} mm, which cannot be right.",
        "Check the figure and its unit.",
    )


def date(written: str) -> Doubt:
    """A month or a whole date."""
    return Doubt(
        "size-date",
        f"{quoted(written)} reads like a date, not like a size.",
        "If the spreadsheet program turned a range or a fraction into a date, write it again in a "
        "cell formatted as text.",
    )


def bound(written: str) -> Doubt:
    """Only a limit is given."""
    return Doubt(
        "size-bound",
        f"{quoted(written)} gives only a limit, not a size.",
        "Write the size as measured, or a range such as 15-16 mm.",
    )


def reversed_range(written: str) -> Doubt:
    """The larger end of a range comes first."""
    return Doubt(
        "size-range-reversed",
        f"The range {quoted(written)} runs from larger to smaller.",
        "Write the smaller size first and both in full, such as 15-16 mm.",
    )


def odd_fraction(written: str) -> Doubt:
    """A denominator that no ruler has."""
    return Doubt(
        "size-odd-fraction",
        f"{quoted(written)} is not a fraction found on a ruler.",
        "Check the figures of the fraction.",
    )


def fraction_of_metric(written: str, unit: str) -> Doubt:
    """Eighths and finer of a millimetre or centimetre."""
    return Doubt(
        "size-fraction-of-metric",
        f"{quoted(written)} in {unit} is unusual: such fractions are usually of an inch.",
        "Write in after it if inches are meant; for a range of mm write 15-16 mm.",
    )


def few_figures(labels: Iterable[str], taken: Iterable[str]) -> Doubt:
    """More dimensions named than figures given."""
    return Doubt(
        "size-label-count",
        f"The cell names {' x '.join(labels)} but gives fewer figures; "
        f"they were taken for {' x '.join(taken)}.",
        "Check which dimension was measured.",
    )


def maybe_paris(written: str) -> Doubt:
    """A size in lines that is usual for French lines only."""
    return Doubt(
        "size-maybe-paris-lines",
        f"{quoted(written)} was read in button lines (0.635 mm), but so small a size in lines "
        f"may be in Paris lines (2.256 mm).",
        "If so, write Paris lines in the cell or in the heading.",
    )


def uncertain(written: str) -> Doubt:
    """A question mark or a word of doubt."""
    return Doubt(
        "size-uncertain",
        f"{quoted(written)} is marked as uncertain; it was read as it stands.",
        "Measure again if the button is at hand.",
    )


def words_left(words: Iterable[str]) -> Doubt:
    """Words that are no part of a size."""
    return Doubt(
        "size-words",
        f"These words were not understood: {quoted(' '.join(words))}.",
        "Check that the size was read as meant; move other remarks to the notes.",
    )
