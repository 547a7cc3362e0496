"""What stands on a form for noting buttons, be it a spreadsheet or a card.

Each field of the record has a heading with its unit, its definition, a word on how to write it
and, where there is one, a list to choose from. All of it comes from the kit's tables and the
vocabulary, so that a filled form is read without a doubt.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.suggesting import suggestion
from buttonstudy.schemes import Field, Vocabulary, fields, units
from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.vocabulary import STATES

__all__ = ["FormField", "form_fields", "states"]

_NUMBER = "button_id"
_NOT_WRITTEN = "not recorded"


@dataclass(frozen=True, slots=True)
class FormField:
    """One field as it stands on a form.

    Parameters
    ----------
    field
        The record's field.
    heading
        Its label, with the unit of a length.
    hint
        How to write it.
    terms
        Preferred terms or usual answers to choose from.
    states
        Answers that say why there is none: absent, not examined, unclear.
    """

    field: Field
    heading: str
    hint: str
    terms: tuple[str, ...]
    states: tuple[str, ...]

    @property
    def choices(self) -> tuple[str, ...]:
        """All that can be chosen."""
        return (*self.terms, *self.states)


def form_fields(names: Sequence[str], unit: str, vocabulary: Vocabulary) -> tuple[FormField, ...]:
    """Give the fields of a form in the record's order; the button's number is always there.

    Parameters
    ----------
    names
        Fields wanted; none stands for all.
    unit
        The unit of lengths that are written without one.
    vocabulary
        Preferred terms.

    Raises
    ------
    CallError
        If a field or the unit is not known.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> [one.heading for one in form_fields(["date", "diameter"], "in", vocabulary())]
    ['Button no.', 'Diameter (in)', 'Date']
    """
    known = [one.field for one in fields()]
    for name in names:
        if name not in known:
            raise CallError(f"There is no field called {name}. {suggestion(name, known)}")
    if unit not in units():
        raise CallError(f"There is no unit called {unit}. {suggestion(unit, units())}")
    wanted = {_NUMBER, *names} if names else set(known)
    return tuple(_form_field(one, unit, vocabulary) for one in fields() if one.field in wanted)


def _form_field(field: Field, unit: str, vocabulary: Vocabulary) -> FormField:
    hint = next(row for row in rows("writing_hints") if row["kind"] == field.kind)
    known = vocabulary.terms(field.field) if field.kind == "term" else ()
    terms = tuple(one.term for one in known)
    return FormField(
        field,
        f"{field.label} ({unit})" if field.kind == "length" else field.label,
        hint["hint"].format(unit=unit),
        terms or tuple(filter(None, hint["choices"].split("|"))),
        states(field, vocabulary),
    )


def states(field: Field, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Give the answers that tell why there is no other, as far as the field takes them.

    A state that the field's vocabulary reads as a term ("absent" of a cover: lost) is left out.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> states(fields()[8], vocabulary())
    ('absent', 'not examined', 'unclear')
    """
    if not (field.inside or field.kind in ("term", "count")):
        return ()
    taken = {word for term in vocabulary.terms(field.field) for word in term.wordings}
    return tuple(one for one in STATES if one != _NOT_WRITTEN and one not in taken)
