"""A research notebook kit for button history.

``import buttonstudy as bs`` gives the public face: `load_survey` reads survey spreadsheets into
records and problems, `study` holds the statistics, `draw` the figures, and `Page` shows and saves
what a notebook has to say. Each part is imported when it is first used.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from buttonstudy import draw, readings, schemes, study
    from buttonstudy.publish.newsletter.draft import draft_newsletter
    from buttonstudy.publish.newsletter.pack import write_newsletter
    from buttonstudy.publish.newsletter.showing import show_newsletter
    from buttonstudy.publish.page import Page
    from buttonstudy.survey.load import Survey, load_survey
    from buttonstudy.survey.photographs import record_photographs

__version__ = "0.1.0"

__all__ = [
    "Page",
    "Survey",
    "draft_newsletter",
    "draw",
    "load_survey",
    "readings",
    "record_photographs",
    "schemes",
    "show_newsletter",
    "study",
    "write_newsletter",
]

_HOMES = {
    "Page": "buttonstudy.publish.page",
    "Survey": "buttonstudy.survey.load",
    "draft_newsletter": "buttonstudy.publish.newsletter.draft",
    "load_survey": "buttonstudy.survey.load",
    "record_photographs": "buttonstudy.survey.photographs",
    "show_newsletter": "buttonstudy.publish.newsletter.showing",
    "write_newsletter": "buttonstudy.publish.newsletter.pack",
}


def __getattr__(name: str) -> object:
    if name in _HOMES:
        return getattr(import_module(_HOMES[name]), name)
    if name in __all__:
        return import_module(f"buttonstudy.{name}")
    raise AttributeError(f"buttonstudy has no {name!r}; it has {', '.join(__all__)}")


def __dir__() -> list[str]:
    return sorted([*globals(), *__all__])
