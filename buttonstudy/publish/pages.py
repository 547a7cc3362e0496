"""The report's pages as text: one template engine, with everything escaped unless it is HTML."""

from base64 import b64encode
from functools import cache
from hashlib import sha256
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
    from markupsafe import Markup

    folder = Path(__file__).parent / "templates"
    environment = Environment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    script = (folder / "page.js").read_text(encoding="utf-8")
    environment.globals |= {"script": Markup(script), "script_hash": _hash(script)}
    return environment


def _hash(script: str) -> str:
    """Name the one script that a page may run, as Content Security Policy asks for it."""
    return "sha256-" + b64encode(sha256(script.encode()).digest()).decode()
