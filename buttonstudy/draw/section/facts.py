"""What one record says, in the form that a drawing needs: terms with their state, and lengths."""

import math
from dataclasses import dataclass

import pandas as pd

from buttonstudy.schemes import ABSENT, fields, units
from buttonstudy.study.evidence.answers import NOT_EXAMINED, NOT_RECORDED, UNCLEAR
from buttonstudy.study.evidence.columns import column, length_bounds, texts
from buttonstudy.study.telling.words import field_label

__all__ = ["Facts", "Layers", "Length", "Said", "crimped", "facts_of"]

_STATES = (ABSENT, NOT_EXAMINED, UNCLEAR)
_DRAWN_TERMS = (
    "mould_material",
    "mould_shape",
    "mould_hole",
    "hole_fill",
    "padding",
    "cover_material",
    "cover_thickness",
    "cover_drawn_up",
    "thread",
    "back_finish",
    "attachment",
    "decoration",
    "cover_condition",
)
_LENGTHS = ("diameter", "mould_diameter", "height", "hole_diameter")


@dataclass(frozen=True, slots=True)
class Said:
    """What a record says of one field: its terms, or one of the four states."""

    terms: tuple[str, ...]
    state: str

    @property
    def known(self) -> bool:
        """True where there are terms."""
        return bool(self.terms)

    @property
    def words(self) -> str:
        """The terms, or the state; "absent" is "none"."""
        return ", ".join(self.terms) or ("none" if self.state == ABSENT else self.state)


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm with the bounds of its reading."""

    low: float
    best: float
    high: float

    @property
    def words(self) -> str:
        """The length in mm.

        Examples
        --------
        >>> Length(15.5, 16, 16.5).words, Length(15, 16.5, 18).words
        ('16 mm', '16.5 mm (15 to 18)')
        """
        told = f"{self.best:.3g} mm"
        return f"{told} ({self.low:.3g} to {self.high:.3g})" if self.wide else told

    @property
    def with_lines(self) -> str:
        """The length in mm and button lines."""
        return f"{self.words} = {self.in_lines}"

    @property
    def in_lines(self) -> str:
        """The length in button lines."""
        return f"{self.best / float(units()['lines']):.3g} lines"

    @property
    def wide(self) -> bool:
        """Whether the bounds are worth telling: wider than a tenth of the length and 1 mm."""
        return self.high - self.low > max(1.0, self.best / 10) + 1e-9


@dataclass(frozen=True, slots=True)
class Layers:
    """How many layers the cover has, from ``low`` to ``high`` (None: no upper bound)."""

    low: int
    high: int | None
    state: str

    @property
    def known(self) -> bool:
        """True where something was counted."""
        return not self.state

    @property
    def words(self) -> str:
        """The count in words.

        Examples
        --------
        >>> Layers(2, None, "").words, Layers(1, 1, "").words, Layers(0, 0, "").words
        ('at least 2 layers', '1 layer', 'no layer')
        """
        if self.state:
            return f"layers {self.state}"
        if self.high is None:
            return f"at least {self.low} layer{'s' * (self.low != 1)}"
        if self.high != self.low:
            return f"{self.low} to {self.high} layers"
        return "no layer" if self.low == 0 else f"{self.low} layer{'s' * (self.low != 1)}"


@dataclass(frozen=True, slots=True)
class Facts:
    """One record, ready for drawing.

    Attributes
    ----------
    name
        The button's number, or its row where it has none.
    date
        Its years in words; empty if not known.
    opened
        Whether it was opened, in words; empty if not recorded.
    said
        Each drawn field of terms.
    lengths
        The lengths that are known.
    layers
        The cover's layers.
    """

    name: str
    date: str
    opened: str
    said: dict[str, Said]
    lengths: dict[str, Length]
    layers: Layers

    def absent(self, field: str) -> bool:
        """Say whether somebody looked and it was not there."""
        return self.said[field].state == ABSENT

    @property
    def hole_known(self) -> bool:
        """Whether a hole is known to be there: noted, filled or measured."""
        noted = self.said["mould_hole"].known or self.said["hole_fill"].known
        return noted or "hole_diameter" in self.lengths

    def first(self, field: str) -> str:
        """Give a field's first term, or the empty text."""
        return self.said[field].terms[0] if self.said[field].terms else ""

    def in_state(self, state: str) -> list[str]:
        """List the labels of the drawn fields in one state; a hole that was seen has none."""
        seen = ("mould_hole",) if self.hole_known else ()
        found = [
            field_label(field)
            for field, said in self.said.items()
            if said.state == state and field not in seen
        ]
        return found + ([field_label("cover_layers")] if self.layers.state == state else [])


def crimped(facts: Facts) -> bool:
    """Say whether the cover is held by a metal back, which is then there to be drawn."""
    return "crimped in metal back" in facts.said["cover_drawn_up"].terms


def facts_of(button: pd.DataFrame) -> Facts:
    """Take from a table of one row what the drawing needs.

    Parameters
    ----------
    button
        One row of a survey's buttons; columns may be missing.
    """
    closed = _text(button, "opened") == "not opened"
    inside = {field.field for field in fields() if field.inside}
    said = {name: _said(button, name, closed and name in inside) for name in _DRAWN_TERMS}
    lengths = {name: found for name in _LENGTHS if (found := _length(button, name))}
    row = _text(button, "row")
    name = _text(button, "button_id") or (f"row {row}" if row else "without a number")
    return Facts(
        name, _date(button), _text(button, "opened"), said, lengths, _layers(button, closed)
    )


def _text(button: pd.DataFrame, name: str) -> str:
    return " ".join(str(texts(button, name)[0]).split())


def _said(button: pd.DataFrame, name: str, hidden: bool) -> Said:
    text = _text(button, name)
    if text in _STATES:
        return Said((), text)
    terms = tuple(part.strip() for part in text.split(";") if part.strip())
    return Said(terms, "" if terms else NOT_EXAMINED if hidden else NOT_RECORDED)


def _length(button: pd.DataFrame, name: str) -> Length | None:
    low, best, high = (float(values[0]) for values in length_bounds(button, name))
    return Length(low, best, high) if math.isfinite(best) and best > 0 else None


def _layers(button: pd.DataFrame, closed: bool) -> Layers:
    low, high = (
        column(button, "cover_layers_low").iloc[0],
        column(button, "cover_layers_high").iloc[0],
    )
    if pd.isna(low):
        state = _text(button, "cover_layers_state")
        told = state if state in _STATES else NOT_EXAMINED if closed else NOT_RECORDED
        return Layers(0, None, told)
    return Layers(int(low), None if pd.isna(high) else int(high), "")


def _date(button: pd.DataFrame) -> str:
    first, last = column(button, "year_from").iloc[0], column(button, "year_to").iloc[0]
    if pd.isna(first) and pd.isna(last):
        return ""
    if pd.isna(first) or pd.isna(last):
        return f"not after {last}" if pd.isna(first) else f"not before {first}"
    return f"{first}" if first == last else f"{first}–{last}"
