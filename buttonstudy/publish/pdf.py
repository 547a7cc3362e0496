"""Pages at actual size as one PDF file, the same bytes each time."""

from collections.abc import Iterable
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["pdf_pages"]


def pdf_pages(figures: "Iterable[Figure]", title: str) -> bytes:
    """Return figures as the pages of a PDF; each page has its figure's size."""
    from matplotlib.backends.backend_pdf import PdfPages

    from buttonstudy.draw.style import house_style

    content = BytesIO()
    about = {"Title": title, "CreationDate": None}
    with house_style(), PdfPages(content, metadata=about) as pages:
        for figure in figures:
            pages.savefig(figure)
    return content.getvalue()
