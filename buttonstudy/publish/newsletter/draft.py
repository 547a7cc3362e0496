"""The draft: a survey becomes an article, from figures and sentences that the kit has already."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.newsletter.article import INVENTED_BRIEFLY, Article, Part, harmless
from buttonstudy.publish.newsletter.credits import (
    INVENTED,
    citation,
    credit_lines,
    is_invented,
    source_lines,
    survey_files,
    without_names,
)
from buttonstudy.publish.newsletter.figures import FigureChoice, chosen_figures
from buttonstudy.publish.surveys import given_name
from buttonstudy.schemes import date_convention
from buttonstudy.schemes import period_scheme as periods_named

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.publish.newsletter.counted import Told, Wanted
    from buttonstudy.survey.load import Survey

__all__ = ["draft_newsletter"]

_NO_MORE_THAN = (
    "A survey holds the buttons that came to hand: what survived, was kept and was offered. No "
    "interval covers that, so that everything is said of sets in this survey, not of the buttons "
    "of a period."
)


def draft_newsletter(
    survey: "Survey",
    figures: Sequence[str],
    *,
    period_scheme: str,
    figure_size: str,
    title: str = "",
    survey_name: str = "",
    names: bool = True,
    compare: Sequence[str],
    earlier: str = "",
    later: str = "",
    seed: int = 1828,
) -> Article:
    """Put an article together.

    Parameters
    ----------
    survey
        What `load_survey` gave.
    figures
        Names of figures, as `buttonstudy newsletter --help` says.
    period_scheme
        The periods to count by.
    figure_size
        The name of a print size.
    title, survey_name
        The article's title and what the survey is called; taken from the survey where empty.
    names
        Whether recorders are named. If not, they are numbered, in the figures too.
    compare, earlier, later
        The fields whose traits are compared, and two periods to set side by side, as in the
        notebook on comparison.
    seed
        Of the random numbers.

    Raises
    ------
    CallError
        If there is no figure of some name.
    SchemeError
        If the periods or the print size are not known.
    """
    from buttonstudy.publish.newsletter.counted import Wanted
    from buttonstudy.study.telling.cautions import cautions_called_for
    from buttonstudy.study.telling.findings import survey_findings
    from buttonstudy.study.telling.words import source_line

    chosen = chosen_figures(figures)
    buttons = survey.buttons if names else without_names(survey.buttons)
    notice = INVENTED if is_invented(survey) else ""
    wanted = Wanted(
        buttons=buttons,
        periods=periods_named(period_scheme),
        classes=survey.settings["size_classes"],
        size=figure_size,
        source=" ".join(filter(None, (source_line(buttons), notice and INVENTED_BRIEFLY))),
        compare=compare,
        earlier=earlier,
        later=later,
        seed=seed,
    )
    name = survey_name or given_name(survey) or ", ".join(survey.sources["file"])
    whole, unit, *doubted = survey_findings(buttons)
    article = Article(
        title=title or _title(buttons),
        survey=name,
        notice=notice,
        size=figure_size,
        lead=(whole, *doubted),
        parts=tuple(_parts(chosen, wanted)),
        method=(unit, *_methods(chosen), *_read_by(survey, wanted), _NO_MORE_THAN),
        sources=tuple(source_lines(survey)),
        credits=tuple(credit_lines(buttons, names)),
        citation=tuple(citation(survey, name, names)),
        cautions=tuple(cautions_called_for(buttons)),
        files=tuple(survey_files(survey)),
    )
    return harmless(article)


def _title(buttons: "pd.DataFrame") -> str:
    """Make a title that is true of any survey."""
    from buttonstudy.study.evidence.sets import set_keys

    sets = int(set_keys(buttons).nunique()) if len(buttons) else 0
    if len(buttons) <= 1:
        return "What one button shows" if len(buttons) else "A survey without records"
    return f"What {sets} sets of buttons show" if sets > 1 else "What one set of buttons shows"


def _parts(chosen: Sequence[FigureChoice], wanted: "Wanted") -> list[Part]:
    tell = _teller(wanted)
    parts = []
    for one in chosen:
        told = tell(one.name)
        parts.append(Part(one.name, one.heading, told.drawn, tuple(told.sentences)))
    return parts


def _teller(wanted: "Wanted") -> "Callable[[str], Told]":
    """Give what makes a figure from its name; a comparison's are made from one computation."""
    from buttonstudy.publish.newsletter.compared import Compared
    from buttonstudy.publish.newsletter.counted import COUNTED

    compared = Compared(wanted)

    def tell(name: str) -> "Told":
        make = COUNTED.get(name)
        return make(wanted) if make else compared.told(name.removeprefix("comparison-"))

    return tell


def _methods(chosen: Sequence[FigureChoice]) -> list[str]:
    """Give how the figures' numbers were got, sentences that several share only once."""
    return list(dict.fromkeys(one for choice in chosen for one in choice.method))


def _read_by(survey: "Survey", wanted: "Wanted") -> list[str]:
    """Say by which conventions dates were read and periods parted."""
    dates = date_convention(survey.settings["date_convention"])
    periods = wanted.periods
    own = periods.title == Path(periods.name).stem  # a file that gives its periods no title
    return [
        f"Dates were read by the convention “{dates.name}”. {dates.title}",
        "Periods: the survey's own, as the figures' captions give them."
        if own
        else f"Periods: {periods.title}.",
    ]
