"""What a cross-section says in words: its caption, its alternative text, the notes below it."""

from buttonstudy.draw.lettering import shortened
from buttonstudy.draw.section.anatomy import Anatomy
from buttonstudy.draw.section.facts import Facts
from buttonstudy.draw.section.pieces import Callout
from buttonstudy.study.evidence.answers import NOT_EXAMINED, NOT_RECORDED, UNCLEAR
from buttonstudy.study.telling.words import field_label, listed

__all__ = [
    "KIND_ONLY",
    "alt_text",
    "assumed_words",
    "caption",
    "line_words",
    "notes",
    "scale_words",
    "size_words",
]

KIND_ONLY = "Threads and fastenings show their kind, not their size."


def scale_words(scale: float) -> str:
    """Word a scale.

    Examples
    --------
    >>> scale_words(4), scale_words(0.5), scale_words(1)
    ('4 times actual size', 'half actual size', 'actual size')
    """
    if scale == 1:
        return "actual size"
    parts = {0.75: "three quarters of", 0.5: "half", 0.25: "a quarter of", 0.1: "a tenth of"}
    return f"{parts[scale]} actual size" if scale in parts else f"{scale:g} times actual size"


def size_words(facts: Facts) -> str:
    """Word the lengths that the record has."""
    names = {
        "diameter": "diameter",
        "mould_diameter": "mould",
        "height": "height",
        "hole_diameter": "hole",
    }
    told = [
        f"{label} {facts.lengths[name].words}"
        for name, label in names.items()
        if name in facts.lengths
    ]
    return listed(told)


def notes(facts: Facts, body: Anatomy) -> list[str]:
    """Give the lines for below the drawing: what nobody knows, and what cannot be."""
    told = []
    for state, lead in (
        (NOT_EXAMINED, "Not examined"),
        (UNCLEAR, "Looked at, but unclear"),
        (NOT_RECORDED, "Not recorded"),
    ):
        labels = facts.in_state(state)
        if labels:
            told.append(f"{lead}: {', '.join(labels)}.")
    plain = [
        f"{field_label(name)} {facts.said[name].words}"
        for name in ("decoration", "cover_condition")
        if facts.said[name].known
    ]
    if plain:
        told.append(shortened(f"Recorded, not drawn: {'; '.join(plain)}."))
    return told + [f"Contradiction: {one}" for one in body.against]


def line_words(dotted: bool) -> str:
    """Say what a drawing's lines mean."""
    dashed = "Dashed: not seen, or not sure."
    return f"{dashed} Dotted: a size is assumed." if dotted else dashed


def assumed_words(body: Anatomy, *, dotted: bool = False) -> list[str]:
    """Say what was assumed for drawing; nothing if nothing was.

    The words stand on the drawing as well as in its caption: a drawing is passed on without it.

    Parameters
    ----------
    dotted
        Only what is drawn dotted, and not what follows from other sizes.
    """
    told = [says for part, says in body.assumptions if part or not dotted]
    return [f"Assumed for drawing: {'; '.join(told)}."] if told else []


def caption(facts: Facts, body: Anatomy, scale: float) -> str:
    """Make the caption of one button's section."""
    date = f" ({facts.date})" if facts.date else ""
    opened = f", {facts.opened}" if facts.opened else ""
    sizes = size_words(facts)
    parts = [f"Cross-section of button {facts.name}{date}{opened}, drawn {scale_words(scale)}."]
    if sizes:
        parts.append(f"Recorded: {sizes}.")
    parts += [*assumed_words(body), KIND_ONLY, line_words(bool(body.dotted))]
    return " ".join([*parts, *notes(facts, body)])


def alt_text(facts: Facts, callouts: list[Callout], body: Anatomy) -> str:
    """Say what the drawing shows, part by part from the face to the back."""
    ordered = sorted(callouts, key=lambda one: -one.y)
    parts = "; ".join(one.says for one in ordered)
    sizes = size_words(facts)
    return (
        f"Drawing of button {facts.name} cut through the middle, face up"
        f"{', ' + sizes if sizes else ''}. From face to back: {parts}. "
        + " ".join(notes(facts, body))
    ).strip()
