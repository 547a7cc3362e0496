"""The article typeset as it might be printed: a proof in PDF.

It is set by Typst from a template of the kit's own. All words reach the template as data, and
strings are never read as its markup. The typefaces come with packages, so that the proof looks the
same on every computer: the compiler's own serif for the text, and the one of the figures.
"""

import json
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, cast

from buttonstudy.publish.describing import one_line
from buttonstudy.publish.newsletter.article import (
    CAUTION_LEAD,
    INVENTED_BRIEFLY,
    METHOD_LEAD,
    Article,
    Part,
)
from buttonstudy.publish.pictures import picture_bytes

if TYPE_CHECKING:
    from buttonstudy.draw.style import PrintSize

__all__ = ["PAGES", "Proof", "proof"]

PAGES = 2
"""How many pages a proof should have."""

_TEMPLATE = "proof.typ"
_LOOKS = {METHOD_LEAD: "shaded", CAUTION_LEAD: "framed"}
_TITLE_POINTS = 17
_LONGEST_WORD = 28
_PIECE = 10
_EDGE_MM = 1.0
_FOOT = 60  # letters that fit on the line at the foot of a page of A5
_ZERO_WIDTH_SPACE = "\u200b"
_GAPS = "▯ stands for a letter that this typeface lacks; the Word document holds it."
_SHRUNK = " Drawn smaller here than it is meant to be printed, to fit the page."
_IN_FULL = "What to heed for each stands in the full article."
_SHORT_CAUTIONS = 2


@dataclass(frozen=True, slots=True)
class Proof:
    """A proof, and how many pages it took."""

    pdf: bytes
    pages: int


@dataclass(frozen=True, slots=True)
class _Fit:
    """One way to set the article: how large the text is, and whether all cautions stand in full."""

    points: float
    full: bool


_FITS = (
    *(_Fit(points, True) for points in (9.0, 8.5, 8.0, 7.75)),
    *(_Fit(points, False) for points in (8.5, 8.0)),
)
"""From the most comfortable to the tightest."""


def proof(article: Article) -> Proof:
    """Typeset an article on its paper, as comfortably as two pages allow.

    Where they do not suffice at all, it takes as many as it needs to be read in comfort.
    """
    with tempfile.TemporaryDirectory(prefix="buttonstudy-") as folder:
        root = Path(folder)
        (root / _TEMPLATE).write_text(_template(), encoding="utf-8")
        for part in article.parts:
            if part.number:
                (root / f"{part.number}.svg").write_bytes(picture_bytes(part.drawn, "svg"))
        tried = []
        for fit in _FITS:
            tried.append(_set(root, _told(article, fit)))
            if tried[-1].pages <= PAGES:
                return tried[-1]
        return tried[0]


def _set(root: Path, told: dict[str, object]) -> Proof:
    import matplotlib
    import typst

    faces = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
    compiler = typst.Compiler(
        str(root / _TEMPLATE),
        root=str(root),
        font_paths=[str(faces)],
        ignore_system_fonts=True,
        sys_inputs={"told": json.dumps(told, ensure_ascii=False)},
    )
    pages = json.loads(compiler.query("<pages>", field="value", one=True))
    pdf = compiler.compile(format="pdf", pdf_standards=["ua-1"])
    return Proof(cast(bytes, pdf), int(pages))


def _template() -> str:
    templates = resources.files("buttonstudy.publish") / "templates"
    return (templates / _TEMPLATE).read_text(encoding="utf-8")


def _told(article: Article, fit: _Fit) -> dict[str, object]:
    """Return all that the template needs."""
    from buttonstudy.draw.lettering import has_gaps
    from buttonstudy.draw.paper import paper
    from buttonstudy.draw.style import print_size

    size = print_size(article.size)
    sheet, page = paper(size.paper), print_size(f"{size.paper.lower()}-page")
    column = print_size(f"{size.paper.lower()}-column")
    boxes = [(heading, list(_fitted(heading, told, fit))) for heading, told in article.boxes]
    words = [article.title, article.survey, *article.lead]
    words += [one for part in article.parts for one in (part.caption, *part.sentences)]
    words += [one for _, told in boxes for one in told]
    return {
        "width": sheet.width_mm,
        "height": sheet.height_mm,
        "side": (sheet.width_mm - page.width_mm) / 2,
        "top": (sheet.height_mm - page.height_mm) / 2,
        "column": column.width_mm,
        "gutter": page.width_mm - 2 * column.width_mm,
        "points": fit.points,
        "large": _TITLE_POINTS,
        "edge": _EDGE_MM,
        "wide": size.width_mm == page.width_mm,
        "title": _settable(article.title),
        "survey": _settable(article.survey),
        "notice": article.notice,
        "foot": INVENTED_BRIEFLY if article.notice else _settable(one_line(article.survey, _FOOT)),
        "lead": [_settable(one) for one in article.lead],
        "parts": [_part(part, size) for part in article.parts],
        "boxes": [
            {
                "heading": heading,
                "look": _LOOKS.get(heading, "plain"),
                "sentences": [_settable(one) for one in told],
            }
            for heading, told in boxes
        ],
        "gaps": _GAPS if has_gaps(*words) else "",
    }


def _part(part: Part, size: "PrintSize") -> dict[str, object]:
    from buttonstudy.draw.style import MM_PER_INCH

    figure = None
    if part.number and part.drawn.figure is not None:
        height = float(part.drawn.figure.get_figheight()) * MM_PER_INCH
        figure = {
            "file": f"{part.number}.svg",
            "width": size.width_mm,
            "height": height,
            "caption": _settable(part.caption),
            "shrunk": _SHRUNK,
            "alt": part.drawn.alt_text,
        }
    return {
        "heading": part.heading,
        "why": _settable(part.caption),
        "sentences": [_settable(one) for one in part.sentences],
        "figure": figure,
    }


def _fitted(heading: str, sentences: tuple[str, ...], fit: _Fit) -> Iterator[str]:
    """Give a box's sentences; where room is short, most cautions by their hazard alone."""
    if heading != CAUTION_LEAD or fit.full or len(sentences) <= _SHORT_CAUTIONS:
        yield from sentences
        return
    first, *others, last = sentences
    hazards = "; ".join(one.partition(":")[0].lower() for one in others)
    yield first
    yield f"What this survey holds also calls for care with: {hazards}. {_IN_FULL}"
    yield last


def _settable(text: str) -> str:
    """Return a text that breaks within very long words, with a sign for each letter that lacks."""
    from buttonstudy.draw.lettering import drawable

    return " ".join(map(_breakable, drawable(text).split(" ")))


def _breakable(word: str) -> str:
    if len(word) <= _LONGEST_WORD:
        return word
    pieces = (word[at : at + _PIECE] for at in range(0, len(word), _PIECE))
    return _ZERO_WIDTH_SPACE.join(pieces)
