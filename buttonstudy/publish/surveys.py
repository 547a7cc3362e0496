"""Which survey a report is about: its files, its name, and whether it is the invented one."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.describing import one_line
from buttonstudy.publish.errors import CallError
from buttonstudy.publish.names import safe_name

if TYPE_CHECKING:
    from buttonstudy.survey.load import Survey

__all__ = ["DEMO", "About", "about", "check_there", "given_name"]

DEMO = "demo"
"""The name that stands for the invented demo surveys."""

_LONGEST = 200


@dataclass(frozen=True, slots=True)
class About:
    """What a report is about.

    Parameters
    ----------
    paths
        For `load_survey`.
    name
        A name for the report's folder.
    title
        A title for its pages.
    demo
        True if the survey is the invented one.
    """

    paths: tuple[str, ...]
    name: str
    title: str
    demo: bool


def about(paths: Sequence[str | Path] = (), called: str = "") -> About:
    """Name a report after its survey; no survey at all stands for the demo.

    Parameters
    ----------
    paths
        Survey files or folders of them.
    called
        What the survey is called, for its title; empty: as its file or folder.

    Examples
    --------
    >>> about(["surveys/Smith 1912.xlsx"]).name, about(["a.csv", "b.csv"]).name, about().name
    ('smith-1912', 'a-and-1-more', 'demo')
    """
    given = tuple(str(path) for path in paths) or (DEMO,)
    called = one_line(called, _LONGEST).strip()
    if given == (DEMO,):
        return About(given, DEMO, called or "The demo surveys", demo=True)
    first = Path(given[0])
    words = first.resolve().name if first.is_dir() else first.stem
    more = f" and {len(given) - 1} more" if len(given) > 1 else ""
    title = (words[:1].upper() + words[1:]).replace("_", " ") + more
    return About(given, safe_name(words + more, "survey"), called or title, demo=DEMO in given)


def check_there(paths: Sequence[str | Path]) -> None:
    """Refuse a survey of which a named file is missing: results of the rest would mislead.

    Raises
    ------
    CallError
        Naming the first that is missing, with the nearest name in its folder.
    """
    from difflib import get_close_matches

    for path in map(Path, paths):
        try:
            if str(path) == DEMO or path.exists():
                continue
            beside = [one.name for one in path.parent.iterdir()] if path.parent.is_dir() else []
        except OSError:  # such as a name longer than any file's: reading tells why
            continue
        near = get_close_matches(path.name, beside, n=1)
        meant = f"Did you mean {path.with_name(near[0])}?" if near else "Check name and folder."
        raise CallError(f"{path}: there is no such file or folder. {meant}")


def given_name(survey: "Survey") -> str:
    """Return what the survey files themselves call the survey; nothing unless each of them does.

    Surveys of several names are called by all of them.
    """
    from buttonstudy.study.telling.words import listed

    if "survey_name" not in survey.sources:  # an archive of an earlier kit
        return ""
    names = [one_line(name, _LONGEST) for name in survey.sources["survey_name"].fillna("")]
    return listed(list(dict.fromkeys(names))) if all(names) else ""
