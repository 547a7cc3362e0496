"""The report's pages as text: one template engine, with everything escaped unless it is HTML."""

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jinja2 import Environment

__all__ = ["render"]


def render(template: str, **values: object) -> str:
    """Return a page or a part of one.

    Parameters
    ----------
    template
        A file among the package's templates.
    **values
        What the template asks for. Text is escaped; HTML must come as ``markupsafe.Markup``.
    """
    return _environment().get_template(template).render(**values)


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(
        loader=FileSystemLoader(Path(__file__).parent / "templates"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
