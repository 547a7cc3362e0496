"""A notebook's prose as HTML.

Raw HTML in the prose is shown as text, pictures from elsewhere become links, and headings get
names that a list of contents can point to.
"""

from dataclasses import dataclass, field

from buttonstudy.publish.names import safe_name

__all__ = ["Heading", "Prose"]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading: its level, its words, and the name that a link uses."""

    level: int
    words: str
    anchor: str


@dataclass(slots=True)
class Prose:
    r"""Turns Markdown into HTML and keeps the headings met, over all cells of a notebook.

    Examples
    --------
    >>> prose = Prose()
    >>> prose.html("## Sizes & shapes")
    '<h2 id="sizes-shapes">Sizes &amp; shapes</h2>\n'
    >>> prose.headings
    [Heading(level=2, words='Sizes & shapes', anchor='sizes-shapes')]
    """

    headings: list[Heading] = field(default_factory=list)

    def html(self, text: str) -> str:
        """Return one cell's prose; a heading of the first level is left to the page's title."""
        import mistune

        prose = self

        class Renderer(mistune.HTMLRenderer):
            def heading(self, text: str, level: int, **attrs: object) -> str:
                return prose._heading(text, level)

            def image(self, text: str, url: str, title: str | None = None) -> str:
                return self.link(text or url, url, title)

            def table(self, text: str) -> str:
                return f'<div class="table-box" tabindex="0"><table>{text}</table></div>\n'

        renderer = Renderer(escape=True)
        markdown = mistune.create_markdown(renderer=renderer, plugins=["table", "footnotes"])
        return str(markdown(text))

    def _heading(self, html: str, level: int) -> str:
        from markupsafe import Markup

        words = Markup(html).striptags()
        anchor = safe_name(words, "part")
        taken = {heading.anchor for heading in self.headings}
        number = 1
        while anchor in taken:
            number += 1
            anchor = f"{safe_name(words, 'part')}-{number}"
        self.headings.append(Heading(level, words, anchor))
        return "" if level == 1 else f'<h{level} id="{anchor}">{html}</h{level}>\n'
