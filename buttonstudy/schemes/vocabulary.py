"""The preferred terms for each construction feature, with what people write instead of them.

One term for one thing lets the surveys of many hands be counted together. The table
``vocabulary.csv`` is made to be read, corrected and added to by people who know buttons: each
term has a definition in one sentence, its source, and the other wordings it stands for.
"""

import re
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from buttonstudy.schemes.fields import fields
from buttonstudy.schemes.tables import Row, read_scheme_file, rows

__all__ = ["ABSENT", "OPENED", "STATES", "Term", "Vocabulary", "vocabulary"]

ABSENT = "absent"
OPENED = ("opened", "partly opened", "not opened")
STATES = (ABSENT, "not examined", "unclear", "not recorded")
_NEEDED = ("field", "term")
_OPENED = "opened"
_PARTED = re.compile(r"[;|]")


@dataclass(frozen=True, slots=True)
class Term:
    """One preferred term.

    Parameters
    ----------
    field
        The record's field, such as ``"mould_material"``.
    term
        The term itself, as it stands in results.
    synonyms
        Other wordings that are read as this term.
    definition
        One sentence.
    source
        Where the term or its definition comes from.
    aat
        Identifier in the Art & Architecture Thesaurus, where one was seen; else empty.
    vaguer
        A vaguer term that is left out beside this one, as "metal" beside "brass"; else empty.
    """

    field: str
    term: str
    synonyms: tuple[str, ...]
    definition: str
    source: str
    aat: str = ""
    vaguer: str = ""

    @property
    def wordings(self) -> tuple[str, ...]:
        """The term (unless it is the state "absent") and its synonyms."""
        return self.synonyms if self.term == ABSENT else (self.term, *self.synonyms)


@dataclass(frozen=True, slots=True, eq=False)
class Vocabulary:
    """All terms, field by field.

    Parameters
    ----------
    entries
        Every row: the terms, and for some fields a row "absent" that holds the wordings by
        which people say that the feature is not there.
    """

    entries: tuple[Term, ...]

    def terms(self, field: str) -> tuple[Term, ...]:
        """Give a field's preferred terms in the table's order, without the state "absent"."""
        return tuple(term for term in self.entries if term.field == field and term.term != ABSENT)

    def wordings(self, field: str) -> tuple[Term, ...]:
        """Give a field's terms with the row "absent", where there is one."""
        return tuple(term for term in self.entries if term.field == field)

    def term(self, field: str, term: str) -> Term | None:
        """Give one term by its name, or None."""
        found = (entry for entry in self.entries if (entry.field, entry.term) == (field, term))
        return next(found, None)


def vocabulary(path: str | Path | None = None) -> Vocabulary:
    """Give the kit's vocabulary, with a user's own added to it where a file is named.

    A user's table *adds to* the kit's; it takes nothing away. Where it names a term of the kit,
    its synonyms are added to that term, and its definition, source, identifier and vaguer term
    are taken where they are filled in. A user's terms stand first, and a wording is read as the
    first term that claims it: a wording that the kit gives to another term goes to the user's.
    A row with the term "absent" adds wordings by which people say that the feature is not there.

    Parameters
    ----------
    path
        A CSV file with the columns field and term, and if wished synonyms (parted by ";" or
        "|"), definition, source, aat and vaguer. The field may also be ``opened``, with a term of
        :data:`OPENED`: its synonyms are further words for it.

    Raises
    ------
    SchemeError
        If the file cannot be used; the message names row and column.

    Examples
    --------
    >>> vocabulary().term("thread", "silk").aat
    '300014072'
    """
    if path is None:
        return _kit_vocabulary()
    kit = {(term.field, term.term): term for term in _kit_vocabulary().entries}
    own: dict[tuple[str, str], Term] = {}
    claimed: dict[tuple[str, str], str] = {}
    for row in read_scheme_file(path, _NEEDED):
        place = _checked(row)
        if place in own:
            raise row.error("term", f"stands twice for {place[0]}", "Join the two rows.")
        term = _term(row)
        _check_wordings(row, term, claimed)
        own[place] = _added(term, kit.pop(place, None), row.file)
    return Vocabulary((*own.values(), *kit.values()))


@cache
def _kit_vocabulary() -> Vocabulary:
    return Vocabulary(tuple(_term(row) for row in rows("vocabulary")))


def _term(row: Row) -> Term:
    """Make a term of a row, columns that are not there being empty."""
    synonyms = (wording.strip() for wording in _PARTED.split(row.get("synonyms", "")))
    rest = (row.get(column, "") for column in ("definition", "source", "aat", "vaguer"))
    return Term(row["field"], row["term"], tuple(filter(None, synonyms)), *rest)


def _added(own: Term, kit: Term | None, file: str) -> Term:
    """Join a user's term with the kit's of the same name; name the file where no source is."""
    if kit is None:
        return replace(own, source=own.source or f"the user's own vocabulary, {Path(file).name}")
    return Term(
        own.field,
        own.term,
        own.synonyms + kit.synonyms,
        own.definition or kit.definition,
        own.source or kit.source,
        own.aat or kit.aat,
        own.vaguer or kit.vaguer,
    )


def _checked(row: Row) -> tuple[str, str]:
    """Check a user's row; give its field and term."""
    field, term = row.needed("field"), row.needed("term")
    known = [entry.field for entry in fields() if entry.kind in ("term", _OPENED)]
    if field == _OPENED and term not in OPENED:
        raise row.error("term", "is not how a button was left", f"Use: {', '.join(OPENED)}.")
    if field not in known:
        raise row.error("field", "is not a field that takes terms", f"Use: {', '.join(known)}.")
    if any(mark in term for mark in ";|"):
        raise row.error("term", 'holds ";" or "|"', "Give each term a row of its own.")
    if term in STATES and term != ABSENT:
        raise row.error(
            "term", "is how the kit tells a blank", "Take the row out, and write so in the survey."
        )
    if not re.fullmatch(r"[0-9]*", row.get("aat", "")):
        raise row.error("aat", "is not an identifier", "Write its digits only, or leave it empty.")
    return field, term


def _check_wordings(row: Row, term: Term, claimed: dict[tuple[str, str], str]) -> None:
    """Refuse wordings without a letter or figure, and those that two rows claim."""
    for wording in term.wordings:
        folded = (term.field, wording.casefold())
        if not any(map(str.isalnum, wording)):
            raise row.error("synonyms", f'holds "{wording}", which is no word', "Take it out.")
        if claimed.setdefault(folded, term.term) != term.term:
            raise row.error(
                "synonyms",
                f'holds "{wording}", which also stands for {claimed[folded]}',
                "Leave it in one of the two rows.",
            )
