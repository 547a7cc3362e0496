"""The pack's files: what an editor is handed beside the figures that the page has saved."""

from pathlib import Path

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.csv_files import write_csv
from buttonstudy.publish.describing import count_of
from buttonstudy.publish.newsletter.article import Article
from buttonstudy.publish.newsletter.prints import grey_png, tiff
from buttonstudy.publish.newsletter.proof import PAGES, proof
from buttonstudy.publish.newsletter.text import article_text
from buttonstudy.publish.newsletter.word import word_document
from buttonstudy.publish.pictures import picture_bytes

__all__ = ["write_newsletter"]

_WORD, _TEXT, _PROOF = "article.docx", "article.txt", "proof.pdf"
_SOURCES = "sources.csv"
_HEADINGS = ["survey file", "records", "SHA-256 of its content"]


def write_newsletter(article: Article, outputs: str | Path) -> list[str]:
    """Write an article in all its forms, and each figure also in grey and as TIFF.

    Parameters
    ----------
    article
        What `draft_newsletter` gave.
    outputs
        The folder for it; empty: nothing is saved.

    Returns
    -------
    list of str
        Sentences that tell what was made, and what an editor should know of it.

    Raises
    ------
    PublishError
        If a file cannot be written.
    """
    if not str(outputs):
        return ["Nothing was saved, since outputs names no folder."]
    folder = Path(outputs).absolute()
    drawn = [part for part in article.parts if part.number]
    for part in drawn:
        png = picture_bytes(part.drawn, "png")
        write_aside(folder / "figures" / f"{part.stem}-grey.png", grey_png(png))
        write_aside(folder / "figures" / f"{part.stem}.tif", tiff(png))
    set_proof = proof(article)
    write_aside(folder / _PROOF, set_proof.pdf)
    write_aside(folder / _WORD, word_document(article))
    write_aside(folder / _TEXT, article_text(article).encode())
    _write_sources(article, folder / _SOURCES)
    return [
        f"The article with {count_of(len(drawn), 'figure')} is saved as {_WORD}, {_TEXT} and "
        f"{_PROOF} of {count_of(set_proof.pages, 'page')}.",
        f"{_SOURCES} lists the survey files with their hashes, to tell which version was read.",
        *_to_know(article, set_proof.pages),
    ]


def _write_sources(article: Article, path: Path) -> None:
    import pandas as pd

    write_csv(pd.DataFrame(article.files, columns=_HEADINGS), path)


def _to_know(article: Article, pages: int) -> list[str]:
    told = [f"{part.name}: {part.drawn.caption}" for part in article.parts if not part.number]
    if pages > PAGES:
        narrower = "" if article.size.endswith("-column") else ", or the width of a column"
        told.append(f"The proof takes more than {PAGES} pages. Choose fewer figures{narrower}.")
    return told
