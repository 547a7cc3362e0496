"""Understands the parts of a cell of terms: what each names, denies, doubts or leaves unsaid.

Small words turn the sense of a term: "not bone", "imitation ivory", "no padding visible",
"linen sewn with silk". Their table, ``wording_marks.csv``, says what each does; the rules for
it stand here.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import groupby

from buttonstudy.readings.blanks import cautious
from buttonstudy.readings.phrases import PARTING, Found
from buttonstudy.schemes import ABSENT

__all__ = ["Part", "alternatives", "parts_of"]

_GAPS = {",": "comma", ":": "colon"}
_REMARKS = "remarks"
_WORDED = frozenset({_REMARKS, "describes", "changes", "imitates", "coloured"})


@dataclass(slots=True)
class Part:
    """One part of a cell: a run of phrases between commas, brackets or joining words.

    Parameters
    ----------
    joined
        What stands before it: ``"comma"``, ``"colon"``, another ``"break"``, or the effect of
        the joining word: ``"adds"``, ``"links"``, ``"either"`` or ``"but"``.
    terms
        The terms that it names.
    state
        The kind of blank that it says.
    left
        Its words where it names nothing, without the marks around them.
    strange
        How many of its words are not known at all.
    over
        These words where it names a term or a state, so that they are passed over.
    beside
        Its words that are known for other fields.
    contrasts, denies, doubts, turns, points, remarks
        Whether a "but" stands before it in its clause, it denies something, is marked as
        uncertain, holds words that may change what a term means, points to another place, or
        holds a word such as arsenic, which is no term of any field.
    """

    joined: str
    terms: list[str] = field(default_factory=list)
    state: str = ""
    left: str = ""
    strange: int = 0
    over: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    contrasts: bool = False
    denies: bool = False
    doubts: bool = False
    turns: bool = False
    points: bool = False
    remarks: bool = False


@dataclass(slots=True)
class _Sense:
    """How the words so far in a clause turn the words that follow."""

    contrasts: bool = False
    denied: bool = False
    aside: bool = False
    imitated: bool = False
    seen: bool = False


def parts_of(text: str, found: list[list[Found]], *, looks: bool = False) -> list[Part]:
    """Understand the parts of a cell.

    Parameters
    ----------
    text
        The composed text.
    found
        The phrases of each clause.
    looks
        True if the field is about looks, where "ivory coloured" means what it says.
    """
    parts: list[Part] = []
    end = 0
    for clause in found:
        sense = _Sense()
        gap = _GAPS.get(text[end : clause[0].start].strip(), "break")
        for effect, run in _runs(clause):
            part = Part(effect or gap)
            named = any(earlier.terms for earlier in parts)
            _understand(part, run, text, sense, named=named, looks=looks)
            parts.append(part)
        end = clause[-1].end
    return parts


def _runs(clause: list[Found]) -> Iterator[tuple[str, list[Found]]]:
    """Part a clause at its joining words; give each run with the effect of the word before."""
    effect = ""
    run: list[Found] = []
    for item in clause:
        if item.kind == "mark" and item.value in PARTING:
            if run:
                yield effect, run
            effect, run = item.value, []
        else:
            run.append(item)
    if run:
        yield effect, run


def _understand(
    part: Part, run: list[Found], text: str, sense: _Sense, *, named: bool, looks: bool
) -> None:
    """Read a run of phrases into its part, the clause's sense going on from run to run."""
    sense.contrasts = sense.contrasts or part.joined == "but"
    sense.denied = sense.denied and part.joined != "but"
    part.contrasts = sense.contrasts
    sense.imitated = sense.seen = False
    content: list[Found] = []
    for place, item in enumerate(run):
        last = place == len(run) - 1
        if item.kind == "mark":
            _turn(part, item.value, sense, named=named, ends=last)
            if item.value == "coloured" and not looks and place and run[place - 1].kind == "term":
                _unname(part)
        elif item.kind == "state":
            part.state = cautious({part.state, item.value})
        elif item.kind == "term" and not (sense.denied or sense.aside or sense.imitated):
            _name(part, item.value)
            sense.denied = item.value == ABSENT and " " in text[item.start : item.end]
        if not (sense.denied or sense.aside) and (item.kind != "mark" or item.value in _WORDED):
            content.append(item)
            part.strange += _is_unknown(item) or (item.kind == "term" and sense.imitated)
    if sense.seen and (sense.denied or part.state == ABSENT):
        part.state = "unclear"
    if part.state:
        part.terms.clear()
    part.beside = tuple(text[item.start : item.end] for item in content if item.kind == "other")
    if part.state or part.terms:
        part.over = tuple(_unknown_runs(content, text))
    elif content:
        part.left = text[content[0].start : content[-1].end]


def _unknown_runs(content: list[Found], text: str) -> Iterator[str]:
    """Give the words that are not known, those that follow each other as one wording."""
    for unknown, run in groupby(content, _is_unknown):
        if unknown:
            words = list(run)
            yield text[words[0].start : words[-1].end]


def _is_unknown(item: Found) -> bool:
    return item.kind == "word" or (item.kind, item.value) == ("mark", _REMARKS)


def _turn(part: Part, effect: str, sense: _Sense, *, named: bool, ends: bool) -> None:
    """Let a mark turn the sense of its part and of what follows."""
    if effect == "negative":
        sense.denied = part.denies = True
    elif effect == "aside":
        sense.aside = sense.aside or named or bool(part.terms)
    elif effect == "imitates":
        sense.imitated = True
        if ends:
            _unname(part)
    elif effect == "seen":
        sense.seen = True
    part.doubts = part.doubts or effect == "uncertain"
    part.turns = part.turns or effect == "changes"
    part.points = part.points or effect == "points"
    part.remarks = part.remarks or effect == _REMARKS


def _name(part: Part, term: str) -> None:
    """Note a term, or the state that some fields have wordings for."""
    if term == ABSENT:
        part.state = cautious({part.state, ABSENT})
    else:
        part.terms.append(term)


def _unname(part: Part) -> None:
    """Take back the last term: it was only a likeness, and counts as not known."""
    if part.terms:
        part.terms.pop()
        part.strange += 1


def alternatives(parts: list[Part]) -> list[Part]:
    """Give the parts of which only one is meant: "wood, bone or horn"."""
    open_parts: list[Part] = []
    for place, part in enumerate(parts):
        if part.joined != "either" or not place:
            continue
        start = place - 1
        while start and _bare(parts[start]) and parts[start].joined in ("comma", "either"):
            start -= 1
        group = parts[start : place + 1]
        meant = {*(t for p in group for t in p.terms), *(p.left for p in group if p.strange)}
        if len(meant) > 1:
            open_parts += [member for member in group if member not in open_parts]
    return open_parts


def _bare(part: Part) -> bool:
    """Tell whether a part is one term and nothing else."""
    return len(part.terms) == 1 and not part.strange and not part.state
