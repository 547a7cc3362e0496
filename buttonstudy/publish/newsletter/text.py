"""The article as plain text, for a layout program: a paragraph a line, no marks but plain ones."""

from collections.abc import Iterator

from buttonstudy.publish.newsletter.article import Article, Part

__all__ = ["article_text"]


def article_text(article: Article) -> str:
    """Return the article as text; where a figure goes, its files, caption and description."""
    return "\n".join(_lines(article))


def _lines(article: Article) -> Iterator[str]:
    yield from _heading(article.title, "=")
    if article.notice:
        yield from (article.notice, "")
    yield from (article.survey, "")
    for sentence in article.lead:
        yield from (sentence, "")
    for part in article.parts:
        yield from _heading(part.heading, "-")
        yield from _figure(part)
        for sentence in part.sentences:
            yield from (sentence, "")
    for heading, sentences in article.boxes:
        yield from _heading(heading, "-")
        for sentence in sentences:
            yield from (sentence, "")


def _heading(words: str, line: str) -> tuple[str, ...]:
    return (words, line * min(len(words), 72), "")


def _figure(part: Part) -> Iterator[str]:
    if not part.number:
        yield from (part.caption, "")
        return
    endings = ".png, -grey.png, .tif, .pdf, .svg"
    yield f"[Figure {part.number} goes here: figures/{part.stem}, as {endings}]"
    yield f"Caption: {part.caption}"
    yield from (f"Alternative text: {part.drawn.alt_text}", "")
