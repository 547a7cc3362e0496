"""The article: its words and figures, before they take any form.

The notebook shows it, and the Word document, the plain text and the proof are made from it, so
that all say the same. Every word that may come from a survey is made one harmless line here.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from buttonstudy.publish.describing import one_line

if TYPE_CHECKING:
    from buttonstudy.draw.drawn import Drawn

__all__ = ["CAUTION_LEAD", "INVENTED_BRIEFLY", "METHOD_LEAD", "Article", "Part", "harmless"]

METHOD_LEAD = "How this was done"
"""The heading of the box on method."""

CAUTION_LEAD = "Before you open a button"
"""The heading of the cautions."""

INVENTED_BRIEFLY = "Invented data, evidence of nothing."
"""Said of each figure of invented data."""

_ELSEWHERE = re.compile(r" in the table(?= only\.|:)")
"""Points to a table, which stands beside the figure in a report and not in an article."""

_PERIODS = " Periods: "
_LONGEST = 6000


@dataclass(frozen=True, slots=True)
class Part:
    """One figure of the article with its heading and its sentences.

    Parameters
    ----------
    name
        The figure's name.
    heading
        What stands over it.
    drawn
        The figure; where none could be drawn its caption says why.
    sentences
        What is said of it.
    number
        The figure's number, or 0 where none was drawn.
    caption
        What stands under it here. A list of periods that an earlier caption gave, and what the
        box on method says, are not repeated as they are in the figure's own caption, which may
        be printed alone.
    """

    name: str
    heading: str
    drawn: "Drawn"
    sentences: tuple[str, ...]
    number: int = 0
    caption: str = ""

    @property
    def stem(self) -> str:
        """The name of its files without their ending."""
        return f"newsletter-{self.name}"


@dataclass(frozen=True, slots=True)
class Article:
    """A short article about a survey.

    Parameters
    ----------
    title, survey
        What stands over it, and what the survey is called.
    notice
        For invented data: that it is invented. Else empty.
    size
        The name of the print size at which the figures are drawn.
    lead
        The sentences that come first.
    parts
        Its figures with what is said of them.
    method, sources, credits, citation, cautions
        How the numbers were got, from which files, who recorded the buttons, how to cite all
        this, and what to heed before opening a button.
    files
        Each survey file's name, how many records it holds, and its SHA-256: for a file of the
        pack, since nobody reads hashes in an article.
    """

    title: str
    survey: str
    notice: str
    size: str
    lead: tuple[str, ...]
    parts: tuple[Part, ...]
    method: tuple[str, ...]
    sources: tuple[str, ...]
    credits: tuple[str, ...]
    citation: tuple[str, ...]
    cautions: tuple[str, ...]
    files: tuple[tuple[str, int, str], ...] = ()

    @property
    def boxes(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Give what stands apart at the end, each with its heading."""
        boxes = (
            ("Sources", self.sources),
            ("Credits", self.credits),
            ("How to cite", self.citation),
            (METHOD_LEAD, self.method),
            (CAUTION_LEAD, self.cautions),
        )
        return (box for box in boxes if box[1])


def harmless(article: Article) -> Article:
    """Return an article of single lines without control signs, in which no sentence comes twice.

    The figures are numbered, and those of invented data say so in their own words too.
    """
    return replace(
        article,
        title=_line(article.title),
        survey=_line(article.survey),
        lead=_lines(article.lead),
        parts=tuple(_parts(article)),
        method=tuple(dict.fromkeys(_lines(article.method))),
        sources=_lines(article.sources),
        credits=_lines(article.credits),
        citation=_lines(article.citation),
        cautions=_lines(article.cautions),
    )


def _parts(article: Article) -> Iterator[Part]:
    said: set[str] = set()
    listed: dict[str, int] = {}
    number = 0
    for part in article.parts:
        sentences = tuple(one for one in _lines(part.sentences) if one not in said)
        said.update(sentences)
        caption, notice = _line(part.drawn.caption), article.notice and INVENTED_BRIEFLY
        drawn = replace(
            part.drawn,
            caption=f"{caption} {notice}".rstrip(),
            alt_text=f"{_line(part.drawn.alt_text)} {notice}".rstrip(),
            name=part.name,
        )
        if drawn.figure is None:
            yield replace(part, drawn=drawn, sentences=sentences, caption=drawn.caption)
            continue
        number += 1
        brief = _without_method(caption, " ".join(article.method))
        shown = f"Figure {number}. {_without_known_periods(brief, listed, number)}"
        yield Part(part.name, part.heading, drawn, sentences, number, shown)


def _without_method(caption: str, method: str) -> str:
    """Leave out the captions' stock sentences whose matter the box on method tells."""
    from buttonstudy.study.telling.words import WIDE_DATES_SHARED, wilson_words

    stock = {"wide dates are shared out": WIDE_DATES_SHARED, "Wilson intervals": wilson_words()}
    for matter, sentence in stock.items():
        if matter in method:
            caption = caption.replace(f" {sentence}", "")
    return caption


def _without_known_periods(caption: str, listed: dict[str, int], number: int) -> str:
    """Point to the figure whose caption has already said which years each period spans."""
    before, mark, periods = caption.rpartition(_PERIODS)
    first = listed.setdefault(periods, number)
    return caption if not mark or first == number else f"{before} Periods as in Figure {first}."


def _lines(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(line for line in map(_line, texts) if line)


def _line(text: str) -> str:
    return one_line(_ELSEWHERE.sub(" in the full report", text), _LONGEST)
