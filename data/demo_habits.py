"""How four invented contributors measure, date and word what they see.

Each has one `Hand`: headings in an order of their own, a unit, a way of dating, words for terms
and words for what could not be seen. The truth comes from `demo_truth`; a hand only blurs it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from random import Random

from demo_trade import LINE_MM, near, pick
from demo_truth import Button

Cell = str | float | date | None
Dating = Callable[[Random, int], str]
Sizing = Callable[[Random, float], Cell]
Words = dict[str, dict[str, tuple[str, ...]]]
"""Field to preferred term to what is written for it."""


SEEN_IN_PART = {"mould_material", "mould_shape", "padding", "cover_layers"}
SEEN_WHOLE = SEEN_IN_PART | {
    "mould_diameter",
    "hole_diameter",
    "mould_hole",
    "hole_fill",
    "cover_cut",
}
LENGTHS = {"diameter", "mould_diameter", "height", "hole_diameter"}


@dataclass(frozen=True, slots=True)
class Hand:
    """One contributor's habits."""

    name: str
    initials: str
    eagerness: float
    error_mm: float
    columns: tuple[tuple[str, str], ...]
    sizes: dict[str, Sizing]
    dating: Dating
    words: Words
    joined_by: str
    not_seen: tuple[str, ...]
    unclear: tuple[str, ...]
    bounded: tuple[str, ...]
    number: Callable[[int], Cell]
    set_label: Callable[[int, int], Cell]
    notes: tuple[str, ...]


def sixteenths(rng: Random, mm: float) -> str:
    """Inches by a tape, to the nearest sixteenth, written in lowest terms.

    >>> sixteenths(Random(1), 15.9), sixteenths(Random(1), 28.4)
    ('5/8', '1 1/8')
    """
    whole, part = divmod(Fraction(round(mm / 25.4 * 16), 16), 1)
    return " ".join(str(piece) for piece in (whole, part) if piece) or "0"


def taped(rng: Random, mm: float) -> str:
    """Sixteenths of an inch, now and then with the mark that the heading makes needless."""
    return sixteenths(rng, mm) + rng.choices(("", '"', " in"), (0.9, 0.06, 0.04))[0]


def heaped_halves(rng: Random, mm: float) -> Cell:
    """Half millimetres with a decimal comma; every other half becomes a whole one."""
    halves = round(mm * 2)
    if halves % 2 and rng.random() < 0.5:
        halves += 1 if mm * 2 > halves else -1
    return f"{halves // 2},5" if halves % 2 else float(halves // 2)


def bare_lines(rng: Random, mm: float) -> str:
    """The nearest even line, as a line gauge gives it, the unit left to the heading."""
    return str(2 * round(mm / LINE_MM / 2))


def even_lines(rng: Random, mm: float) -> str:
    """The nearest even line with its mark."""
    return bare_lines(rng, mm) + ("L" if rng.random() < 0.2 else " L")


def tenths(rng: Random, mm: float) -> str:
    """Millimetres by calipers, to one tenth."""
    return f"{mm:.1f}"


def date_in_words(rng: Random, year: int) -> str:
    """The way most people write: about a year, a decade, a part of a century."""
    manner = rng.random()
    if manner < 0.3:
        mark = pick(rng, {"c. ": 2, "c.": 1, "about ": 1, "ca. ": 1})
        return f"{mark}{round(year / 10) * 10}"
    if manner < 0.55 or year % 25 == 0:
        return _decade(year)
    if manner > 0.93:
        return _century(year)
    part = year % 100
    if part <= 20:
        return f"early {_century(year)}"
    if 42 <= part <= 58:
        return f"mid {_century(year)}"
    if part >= 80:
        return f"late {_century(year)}"
    quarter = ("first", "second", "third", "last")[part // 25]
    return f"{quarter} quarter of the {_century(year)}"


def _decade(year: int) -> str:
    """The decade; "1800s" could be read as the century, so its first decade is worded apart."""
    start = year // 10 * 10
    return f"c. {start + 5}" if start % 100 == 0 else f"{start}s"


def _century(year: int) -> str:
    return f"{year // 100 + 1}th century"


def date_by_reign(rng: Random, year: int) -> str:
    """Reigns and named periods, now and then a decade."""
    manner = rng.random()
    if manner < 0.2:
        return _decade(year)
    named = (
        ("George III", 1761, 1810),
        ("Regency", 1812, 1819),
        ("George IV", 1821, 1829),
        ("William IV", 1831, 1836),
        ("early Victorian", 1838, 1850),
        ("mid Victorian", 1852, 1869),
        ("late Victorian", 1871, 1899),
    )
    fitting = [name for name, first, last in named if first <= year <= last]
    if not fitting:
        return f"about {year}"
    return fitting[0].split()[1] if year > 1837 and manner < 0.6 else fitting[0]


def date_range(rng: Random, year: int) -> str:
    """A range of years with an en dash, its end now and then shortened; sometimes one year."""
    if rng.random() < 0.12:
        return str(year)
    first = (year - int(rng.random() * 15)) // 5 * 5
    last = first + (10, 20, 20, 30, 40)[int(rng.random() * 5)]
    while last < year:
        last += 10
    if rng.random() < 0.25 and first // 100 == last // 100:
        return f"{first}–{last % 100:02d}"
    return f"{first}–{last}"


def date_edtf(rng: Random, year: int) -> str:
    """Dates in the Extended Date/Time Format, most of them close."""
    manner = rng.random()
    if manner < 0.35:
        return f"{year + int(rng.random() * 7) - 3}~"
    if manner < 0.55:
        return f"{year // 10}X"
    if manner < 0.7:
        return str(year)
    first = year - 1 - int(rng.random() * 8)
    return f"{first}/{first + 10}"


def cells(
    rng: Random, hand: Hand, button: Button, number: Cell, set_label: Cell, dated: str
) -> dict[str, Cell]:
    """Word one button as `hand` would, heading by heading."""
    measured = {
        "diameter": near(rng, button.diameter_mm, hand.error_mm),
        "mould_diameter": near(rng, button.mould_mm, hand.error_mm),
        "height": near(rng, button.height_mm, hand.error_mm),
        "hole_diameter": button.make.hole_mm,
    }
    known: dict[str, Cell] = {
        "button_id": number,
        "set_id": set_label,
        "recorder": hand.initials,
        "date": dated,
        "notes": _now_and_then(rng, hand.notes),
        "own": f"tray {1 + int(button.set_key[1:]) // 12}",
        "photos": f"{number}.jpg" if rng.random() < 0.2 else None,
        "found_inside": None,
    }
    row: dict[str, Cell] = {}
    for heading, field in hand.columns:
        if field in known:
            row[heading] = known[field]
        elif field in SEEN_WHOLE and not _seen(button, field):
            row[heading] = hand.not_seen[int(rng.random() * len(hand.not_seen))]
        elif field in LENGTHS:
            mm = measured[field]
            row[heading] = None if mm is None else hand.sizes[heading](rng, mm)
        else:
            row[heading] = _told(rng, hand, button, field)
    return row


def _seen(button: Button, field: str) -> bool:
    return button.opened == "opened" or (button.opened == "partly opened" and field in SEEN_IN_PART)


def _told(rng: Random, hand: Hand, button: Button, field: str) -> Cell:
    """One term or count as the hand words it, at times forgotten or not made out."""
    luck = rng.random()
    if field == "opened":
        return _worded(rng, hand, field, button.opened)
    if luck < 0.04:
        return None
    if field in SEEN_WHOLE and luck < 0.08:
        return hand.unclear[int(rng.random() * len(hand.unclear))]
    if field == "cover_layers":
        return _layers(rng, hand, button)
    if field == "cover_condition":
        return _worded(rng, hand, field, button.condition)
    return _worded(rng, hand, field, button.make.terms[field])


def _layers(rng: Random, hand: Hand, button: Button) -> Cell:
    """The count, or only a lower bound where the button was opened in part."""
    layers = button.make.layers
    if button.opened == "opened":
        return float(layers)
    bound = hand.bounded[int(rng.random() * len(hand.bounded))]
    return bound.format(max(1, layers - (rng.random() < 0.5)))


def _worded(rng: Random, hand: Hand, field: str, terms: str) -> str:
    """One of the hand's words for each term; the preferred term where it has none."""
    known = hand.words.get(field, {})
    wordings = []
    for term in terms.split("; "):
        choices = known.get(term, (term,))
        wordings.append(choices[int(rng.random() * len(choices))])
    return hand.joined_by.join(wordings)


def _now_and_then(rng: Random, notes: tuple[str, ...]) -> str | None:
    return notes[int(rng.random() * len(notes))] if rng.random() < 0.18 else None
