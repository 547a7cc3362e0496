"""Headings recognised: which field of the record each column of a table holds.

A heading is taken apart into words and a unit ("Ø (mm)", "Size [L]", "Dia. ins"), its words are
brought to one form (``mold`` to ``mould``), and what is left is looked up in a table that a
button researcher can correct. Recognition never guesses between two fields: a heading that it
does not know is carried through as it stands, and a mapping file can say what it means.
"""

import re
import unicodedata
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.schemes import fields, limit
from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import unit_named
from buttonstudy.survey.mapping import CONTAINS, DATE_ENDS, NOT_USED, Meaning, meaning_of

BY_HEADING = "heading"
BY_NEAR_SPELLING = "near spelling"
BY_MAPPING = "mapping file"
NOT_KNOWN = "not known"

_BRACKETED = re.compile(r"[(\[{]([^)\]}]*)[)\]}]")
_WORDS = re.compile(r"[^\W_]+|[″”\"‴'´′]+|[ø⌀№#]")
_YES_NO = re.compile(r"\b(?:yes\s*/\s*no|y\s*/\s*n)\b")
_NEAREST = re.compile(
    r"[\s,(]*\b(?:to\s+)?(?:the\s+)?nearest\s+(?P<step>[^)\]]+)[)\]]?\s*$", re.IGNORECASE
)
_FILLER = frozenset(["of", "the", "a", "an", "is", "was", "if", "any"])


@dataclass(frozen=True, slots=True)
class Column:
    """What one column of a table was taken for.

    Parameters
    ----------
    index
        Position in the table's rows, 0-based.
    letter
        The column as the spreadsheet program names it.
    heading
        The heading as written.
    field
        Field of the record, ``"date_from"`` or ``"date_to"``; ``""`` if not known.
    unit
        Unit that the heading states; ``""`` if none.
    how
        How the meaning was found.
    step_mm
        The recorder's measuring step, where the heading or a mapping file states it.
    claims
        A field that the heading would claim but an earlier column holds.
    prefix
        What a mapping file puts before the button numbers of this column.
    """

    index: int
    letter: str
    heading: str
    field: str = ""
    unit: str = ""
    how: str = NOT_KNOWN
    step_mm: float | None = None
    claims: str = ""
    prefix: str = ""


def split_heading(heading: str) -> tuple[frozenset[str], str]:
    """Take a heading apart into its words, in one form and any order, and its unit.

    Examples
    --------
    >>> split_heading("Mold material")[0] == split_heading("Material of mould")[0]
    True
    >>> split_heading("Dia. ins")
    (frozenset({'diameter'}), 'in')
    >>> split_heading("Size [L]")
    (frozenset({'size'}), 'lines')
    """
    text = _YES_NO.sub("", unicodedata.normalize("NFC", heading).casefold()).replace("ø", " ø ")
    unit = ""
    for inner in _BRACKETED.findall(text):
        unit = unit or unit_named(inner.strip(" .")) or ""
    outside = _BRACKETED.sub(
        lambda found: "" if unit_named(found[1].strip(" .")) else found[0], text
    )
    words = [word for word in _WORDS.findall(outside) if word not in _FILLER]
    words, trailing = _trailing_unit(words)
    return frozenset(_one_form(words)), unit or trailing


def _trailing_unit(words: list[str]) -> tuple[list[str], str]:
    """Split off a unit that ends the heading, such as ``ins`` or ``Paris lines``."""
    for count in (2, 1):
        tail = " ".join(words[-count:])
        if len(words) >= count and (unit := unit_named(tail)):
            kept = words[:-count]
            if kept and kept[-1] in ("in", "to", "nearest"):
                kept = kept[:-1]
            return kept, unit
    return words, ""


def _one_form(words: Iterable[str]) -> list[str]:
    forms = _word_forms()
    return [part for word in words for part in forms.get(word, word).split()]


@cache
def _word_forms() -> dict[str, str]:
    return {row["word"]: row["means"] for row in rows("heading_words")}


@cache
def _known_headings() -> dict[frozenset[str], str]:
    return {frozenset(row["heading"].split()): row["field"] for row in rows("headings")}


@cache
def _kinds() -> dict[str, str]:
    return {one.field: one.kind for one in fields()} | dict.fromkeys(DATE_ENDS, "date")


@lru_cache(maxsize=4096)  # the first rows are searched for headings, and repeat themselves
def field_of(heading: str) -> tuple[str, str]:
    """Give the field and unit that a heading states; ``("", unit)`` if it is not known.

    Examples
    --------
    >>> field_of("Diam (mm)"), field_of("Ø"), field_of("Mould")
    (('diameter', 'mm'), ('diameter', ''), ('mould_material', ''))
    >>> field_of("Drawer")
    ('', '')
    """
    words, unit = split_heading(_NEAREST.sub("", heading))
    unit = unit or _nearest_unit(heading)
    known = _known_headings()
    if not unit:
        return known.get(words, ""), ""
    if not words:
        return "diameter", unit
    for choice in (words, words | {"diameter"}):  # "Hole (mm)" is the hole's diameter
        if _kinds().get(known.get(choice, "")) == "length":
            return known[choice], unit
    plain = frozenset(_one_form(_plain_words(heading)))  # "Found in" is not in inches
    return (known[plain], "") if plain in known else (known.get(words, ""), unit)


def _nearest_unit(heading: str) -> str:
    found = _NEAREST.search(heading)
    return unit_named(found["step"].split()[-1]) if found else ""


def stated_step(heading: str) -> float | None:
    """Give the measuring step in mm that a heading states, or None.

    Examples
    --------
    >>> stated_step("Diam. to nearest 1/16 in"), stated_step("Diam (mm)")
    (1.5875, None)
    """
    found = _NEAREST.search(heading)
    if not found:
        return None
    text = found["step"] if any(map(str.isdigit, found["step"])) else f"1 {found['step']}"
    lengths = read_lengths(text).lengths
    return lengths[0].best if len(lengths) == 1 else None


def _plain_words(heading: str) -> list[str]:
    text = unicodedata.normalize("NFC", heading).casefold()
    return [word for word in _WORDS.findall(text) if word not in _FILLER]


def is_heading(text: str) -> bool:
    """Tell whether a text would be recognised as a heading by its exact words."""
    return bool(text) and len(text) <= limit("heading-length") and bool(field_of(text)[0])


def near_field(heading: str) -> str:
    """Give the field whose known heading is spelt nearly like this one; ``""`` if none or two."""
    from rapidfuzz import fuzz

    words, _ = split_heading(heading)
    text = " ".join(sorted(words))
    if len(text) < limit("near-heading-letters"):
        return ""
    close = {
        field
        for known, field in _known_headings().items()
        if field != CONTAINS  # a letter more or less would turn found inside round
        and fuzz.ratio(text, " ".join(sorted(known))) >= limit("near-heading")
    }
    return close.pop() if len(close) == 1 else ""


_PROPOSED = frozenset(["term", "length", "count", "opened", "date"])


def proposed_field(heading: str, held: Collection[str]) -> str:
    """Give the field that a heading not known may mean, since it holds all words of a known one.

    A field that another column holds is not proposed, nor one whose words stand in many headings.

    Examples
    --------
    >>> proposed_field("What is in the hole", ()), proposed_field("Drawer no.", ())
    ('mould_hole', '')
    """
    words, _ = split_heading(heading)
    fitting = {
        known: field
        for known, field in _known_headings().items()
        if known < words and (_kinds().get(field) in _PROPOSED or field == "set_id")
    }
    most = max(map(len, fitting), default=0)
    likely = {field for known, field in fitting.items() if len(known) == most}
    likely -= set(DATE_ENDS)
    return likely.pop() if len(likely) == 1 and not likely & set(held) else ""


def recognise(
    headings: Sequence[str],
    letters: Sequence[str],
    file: str,
    sheet: str,
    mapping: Sequence[Meaning] = (),
) -> list[Column]:
    """Say for each heading of one table which field it holds.

    A field is held by one column, except that a length may stand in several units and a date in
    two ends. The mapping file goes first, then exact headings from left to right, then near
    spellings. A later column that claims a field already held is left unknown, with `claims` set.
    """
    found: dict[int, Column] = {}
    held: set[tuple[str, str]] = set()

    def take(column: Column) -> None:
        key = (column.field, column.unit if _kinds().get(column.field) == "length" else "")
        if column.field and key in held:
            column = Column(
                column.index, column.letter, column.heading, claims=column.field, unit=column.unit
            )
        elif column.field:
            held.add(key)
        found[column.index] = column

    places = list(zip(range(len(headings)), letters, headings))
    for index, letter, heading in places:
        if meaning := meaning_of(mapping, heading, file, sheet):
            field = "" if meaning.field == NOT_USED else meaning.field
            unit = meaning.unit or field_of(heading)[1]
            step = meaning.step_mm or stated_step(heading)
            take(Column(index, letter, heading, field, unit, BY_MAPPING, step, "", meaning.prefix))
    for index, letter, heading in places:
        if index not in found and heading and (named := field_of(heading))[0]:
            take(Column(index, letter, heading, *named, BY_HEADING, stated_step(heading)))
    for index, letter, heading in places:
        if index not in found:
            field = near_field(heading) if heading else ""
            unit = split_heading(heading)[1] if field else ""
            how = BY_NEAR_SPELLING if field else NOT_KNOWN
            take(Column(index, letter, heading, field, unit, how))
    return [found[index] for index in range(len(headings))]
