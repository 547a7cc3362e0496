"""An executed notebook as the body of a page.

Prose, sentences, figures and tables stay in their order; the code goes to the end, one click
away. A page is one file: figures are in it as data, and it asks no other file or host for
anything. What a page of the kit showed is made anew from its record; any other output of a
notebook is shown as the notebook holds it.
"""

import base64
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import cast

from markupsafe import Markup

from buttonstudy.publish.executed import NotebookCell, Output, read_executed, records
from buttonstudy.publish.markdown import Heading, Prose
from buttonstudy.publish.pages import render
from buttonstudy.publish.showing import RECORD, ShownRecord

__all__ = ["NotebookBody", "first_picture", "lead_sentences", "notebook_body"]

_OUR_FILES = re.compile(r"(figures|tables)/[^/\\:?#]+\.(png|pdf|svg|csv)")
_PICTURES = ("image/png", "image/jpeg", "image/svg+xml")


@dataclass(frozen=True, slots=True)
class NotebookBody:
    """What a page shows of a notebook.

    Parameters
    ----------
    body
        HTML.
    contents
        The headings of its parts.
    code
        The text of its code cells.
    leads
        Sentences that could announce the page, the first of them the best.
    picture
        The first figure as PNG, or nothing.
    """

    body: Markup
    contents: tuple[Heading, ...]
    code: tuple[str, ...]
    leads: tuple[str, ...]
    picture: bytes


def notebook_body(path: Path) -> NotebookBody:
    """Read an executed notebook and return what its page shows."""
    notebook = read_executed(path)
    prose = Prose()
    parts = [part for cell in notebook["cells"] for part in _cell_parts(cell, prose)]
    code = [_source(cell) for cell in notebook["cells"] if cell.get("cell_type") == "code"]
    return NotebookBody(
        body=Markup("\n").join(parts),
        contents=tuple(heading for heading in prose.headings if heading.level == 2),
        code=tuple(text for text in code if text.strip()),
        leads=lead_sentences(notebook["cells"]),
        picture=first_picture(path),
    )


def lead_sentences(cells: Sequence[NotebookCell]) -> tuple[str, ...]:
    """Return what could announce a notebook, the best first.

    That is what it names its main finding, then each result's first sentence, else its first prose.
    """
    told = [_record(output) for cell in cells for output in cell.get("outputs", [])]
    announced = [record["announced"] for record in told if record.get("announced")]
    results = [record["sentences"][0] for record in told if _states_a_result(record)]
    if announced or results:
        return (*announced, *results)
    prose = [line for cell in cells if cell.get("cell_type") == "markdown" for line in _lines(cell)]
    return tuple(line for line in prose if line and not line.startswith(("#", "|", "-", "!")))[:1]


def _states_a_result(record: ShownRecord) -> bool:
    return record.get("kind") == "say" and bool(record.get("sentences"))


def first_picture(path: Path) -> bytes:
    """Return the first figure that a page of the kit showed, as PNG."""
    for record, output in records(read_executed(path)):
        picture = output.get("data", {}).get("image/png")
        if record.get("kind") == "figure" and picture:
            return base64.b64decode(_joined(picture))
    return b""


def _cell_parts(cell: NotebookCell, prose: Prose) -> Iterator[Markup]:
    if cell.get("cell_type") == "markdown":
        yield Markup(prose.html(_source(cell)))
    for output in cell.get("outputs", []):
        record = _record(output)
        if record.get("kind") == "figure":
            yield Markup(_figure(record, output))
        elif record.get("kind") == "table":
            yield Markup(render("table.html.j2", table=_html(output), files=_files(record)))
        elif record.get("kind") != "caption":
            yield _other(output)


def _figure(record: ShownRecord, output: Output) -> str:
    picture = output.get("data", {}).get("image/png", "")
    size = cast(Mapping[str, int], output.get("metadata", {}).get("image/png", {}))
    return render(
        "figure.html.j2",
        figure=record,
        source=f"data:image/png;base64,{_joined(picture)}",
        width=size.get("width", 0),
        height=size.get("height", 0),
        files=_files(record),
    )


def _other(output: Output) -> Markup:
    """Return what a cell shows by itself: HTML, a picture or plain text, the richest first."""
    if output.get("output_type") == "stream":
        stream = cast(Mapping[str, object], output)
        shown = _joined(stream.get("text", "")) if stream.get("name") == "stdout" else ""
        return Markup("<pre>{}</pre>").format(shown) if shown else Markup()
    data = output.get("data", {})
    if "text/html" in data:
        return _html(output)
    kind = next((kind for kind in _PICTURES if kind in data), "")
    if kind:
        return _picture(kind, output)
    plain = _joined(data.get("text/plain", ""))
    return Markup("<pre>{}</pre>").format(plain) if plain else Markup()


def _picture(kind: str, output: Output) -> Markup:
    content = _joined(output.get("data", {})[kind])
    if kind == "image/svg+xml":
        content = base64.b64encode(content.encode()).decode()
    known = cast(Mapping[str, str], output.get("metadata", {}).get(kind, {}))
    alt = known.get("alt") or "A picture for which the notebook gives no description."
    return Markup('<p class="figure-box"><img src="data:{};base64,{}" alt="{}"></p>').format(
        kind, "".join(content.split()), alt
    )


def _html(output: Output) -> Markup:
    return Markup(_joined(output.get("data", {}).get("text/html", "")))


def _files(record: ShownRecord) -> list[tuple[str, str]]:
    """Return the files that a record names, with the word for each kind."""
    files = [str(file) for file in record.get("files", [])]
    return [(file, file.rpartition(".")[2].upper()) for file in files if _OUR_FILES.fullmatch(file)]


def _record(output: Output) -> ShownRecord:
    record = output.get("metadata", {}).get(RECORD)
    return cast(ShownRecord, record) if isinstance(record, dict) else ShownRecord()


def _source(cell: NotebookCell) -> str:
    return _joined(cell.get("source", ""))


def _lines(cell: NotebookCell) -> list[str]:
    return _source(cell).split("\n")


def _joined(text: object) -> str:
    return "".join(text) if isinstance(text, list) else str(text)
