"""A plate of a survey's buttons at actual size, and a gauge, as PDF to print."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.describing import count_of
from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.pdf import pdf_pages
from buttonstudy.publish.places import new_file
from buttonstudy.publish.report import nothing_read
from buttonstudy.publish.surveys import DEMO, about, check_there, given_name
from buttonstudy.schemes import limit

if TYPE_CHECKING:
    import numpy as np
    import pandas as pd
    from numpy.typing import NDArray

    from buttonstudy.draw.paper import Paper
    from buttonstudy.draw.plate import PlateButton

__all__ = ["PlateResult", "write_gauge", "write_plate"]

_PLACES = ("button_id", "file", "sheet", "row")
_NAMED = 30
_EXPLAINED = 5


@dataclass(frozen=True, slots=True)
class PlateResult:
    """What a plate shows.

    Attributes
    ----------
    buttons, photographs, pages
        How many buttons are on it, how many of them as photographs, and on how many pages.
    notes
        What is not shown, or not as a photograph, and why: full sentences.
    """

    buttons: int
    photographs: int
    pages: int
    notes: tuple[str, ...]

    @property
    def says(self) -> str:
        """The result in sentences."""
        kind = "as a photograph" if self.photographs == 1 else "as photographs"
        which = "" if self.photographs == self.buttons else f"{self.photographs} of them "
        photographs = f", {which}{kind}" if self.photographs else ""
        pages = count_of(self.pages, "page")
        first = f"{count_of(self.buttons, 'button')} on {pages}{photographs}."
        return " ".join([first, *self.notes])


def write_plate(
    surveys: Sequence[str],
    to: str | Path,
    *,
    size: str = "A5",
    only: Sequence[str] = (),
    name: str = "",
    choices: Choices | None = None,
) -> PlateResult:
    """Write a plate of buttons at actual size.

    Parameters
    ----------
    surveys
        Survey files or folders; none stands for the invented demo surveys.
    to
        A new file that ends with .pdf.
    size
        The paper, ``"A5"`` or ``"A4"``.
    only
        The numbers of the buttons to show; none stands for all.
    name
        What the survey is called; by default as its files say, or as its file or folder.
    choices
        How the survey is read.

    Raises
    ------
    CallError
        If the file is already there, a button is not known, or there are too many or none.
    PublishError
        If nothing could be read or written.
    SchemeError
        If the paper is not known.
    """
    from buttonstudy.draw.paper import paper
    from buttonstudy.draw.plate import plate_figures
    from buttonstudy.survey.load import load_survey

    place, on, paths = new_file(to, ".pdf"), paper(size), about(surveys).paths
    check_there(surveys)
    survey = load_survey(list(paths), **(choices or Choices()).reading())
    subject = about(surveys, name or given_name(survey))
    if not len(survey.buttons):
        raise PublishError(nothing_read(survey))
    chosen = _chosen(survey.buttons, only)
    most = int(limit("plate-buttons"))
    if len(chosen) > most:
        raise CallError(
            f"A plate of {len(chosen):,} buttons is more than the {most} that one holds. "
            f"Name some with --only."
        )
    entries, notes = _entries(chosen, _folders(subject.paths), on)
    if not entries:
        raise CallError(f"There is nothing to draw. {' '.join(notes)}")
    figures = plate_figures(entries, on, f"{subject.title}: buttons at actual size", notes)
    write_aside(place, pdf_pages(figures, f"{subject.title}: buttons at actual size"), fresh=True)
    shown = sum(one.photograph is not None for one in entries)
    return PlateResult(len(entries), shown, len(figures), tuple(notes))


def write_gauge(to: str | Path, *, size: str = "A5") -> Path:
    """Write a gauge of button sizes to print.

    Raises
    ------
    CallError
        If the file is already there.
    PublishError
        If it cannot be written.
    """
    from buttonstudy.draw.gauge import gauge_figures
    from buttonstudy.draw.paper import paper

    place = new_file(to, ".pdf")
    write_aside(place, pdf_pages(gauge_figures(paper(size)), "Gauge of button sizes"), fresh=True)
    return place


def _folders(paths: Sequence[str]) -> Mapping[str, Path]:
    from buttonstudy.survey.load import demo_folder
    from buttonstudy.survey.photographs import survey_folders

    return survey_folders([demo_folder() if path == DEMO else path for path in paths])


def _chosen(buttons: "pd.DataFrame", only: Sequence[str]) -> "pd.DataFrame":
    """Take the records that were asked for, in the order asked for."""
    import pandas as pd

    from buttonstudy.study.one_button.by_number import NoSuchButtonError, find_record

    if not only:
        return buttons
    numbers = buttons["button_id"].fillna("").astype(str).map(_folded)
    known = set(numbers)
    named = [
        part
        for one in only
        for part in ([one] if _folded(one) in known else one.split(","))  # or several in one
        if part.strip() or not one.strip(" ,")  # a comma too many; nothing at all is refused
    ]
    found = []
    for one in named:
        here = buttons[numbers == _folded(one)]
        if here.empty or not one.strip():
            try:
                find_record(buttons, one)
            except NoSuchButtonError as error:
                raise CallError(str(error)) from error
        found.append(here)
    return pd.concat(found)


def _folded(number: str) -> str:
    return " ".join(number.casefold().split())


def _entries(
    buttons: "pd.DataFrame", folders: Mapping[str, Path], on: "Paper"
) -> tuple[list["PlateButton"], list[str]]:
    """Make the plate's buttons, and the notes on what is left out."""
    from buttonstudy.draw.plate import widest_on
    from buttonstudy.study.evidence.columns import floats

    entries, sizeless, wide, unshown = [], [], [], []
    names, sources = _names(buttons)
    for place in range(len(buttons)):
        record = buttons.iloc[[place]]
        source = sources[place]
        name = f"{names[place]} ({source})" if source else names[place]
        diameter = float(floats(record, "diameter_mm")[0])
        if not diameter > 0:  # a missing size is not greater than nothing either
            sizeless.append(name)
        elif diameter > widest_on(on):
            wide.append(f"{name} ({diameter:.4g} mm)")
        else:
            entry, why = _entry(record, names[place], source, diameter, folders)
            entries.append(entry)
            unshown += [f"{name}: {reason}" for reason in why]
    notes = [
        *_listing("Without a recorded size, so not shown", sizeless),
        *_listing(f"Wider than {on.name} allows, so not shown", wide),
        *_unshown(unshown),
    ]
    return entries, notes


def _unshown(told: Sequence[str]) -> list[str]:
    """Say which photographs are not shown and why, or only of how many buttons they are."""
    if len(told) > _EXPLAINED:
        return [f"{len(told)} photographs could not be shown; there are outlines instead."]
    return _listing("Shown as outlines though photographs are named", told)


def _listing(lead: str, names: Sequence[str]) -> list[str]:
    if not names:
        return []
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return [f"{lead}: {'; '.join(names[:_NAMED])}{more}."]


def _names(buttons: "pd.DataFrame") -> tuple[list[str], list[str]]:
    """Give each button's number, and where it stands if another has the same number."""
    from buttonstudy.study.evidence.columns import texts

    columns = {name: [str(one) for one in texts(buttons, name)] for name in _PLACES}
    names = [number or f"row {row}" for number, row in zip(columns["button_id"], columns["row"])]
    told = list(map(_folded, names))
    files = list(zip(told, columns["file"]))
    sources = []
    for place, name in enumerate(told):
        source = columns["file"][place] if told.count(name) > 1 else ""
        if source and files.count(files[place]) > 1:
            where = (columns["sheet"][place], f"row {columns['row'][place]}")
            source = ", ".join([source, *filter(None, where)])
        sources.append(source)
    return names, sources


def _entry(
    record: "pd.DataFrame", name: str, source: str, diameter: float, folders: Mapping[str, Path]
) -> tuple["PlateButton", list[str]]:
    from buttonstudy.draw.plate import PlateButton
    from buttonstudy.draw.section.facts import facts_of
    from buttonstudy.draw.section.tables import shape
    from buttonstudy.study.evidence.columns import texts

    facts = facts_of(record)
    form = facts.first("mould_shape")
    is_round = shape(form).round
    size = facts.lengths["diameter"]
    says = [*filter(None, [source]), size.words, size.in_lines]
    size_class = str(texts(record, "size_class")[0])
    if size_class:
        borderline = str(texts(record, "size_class_borderline")[0]) == "True"
        says.append(f"{size_class}{' (borderline)' * borderline}")
    if not is_round:
        says.append(f"{form}: circle of its width")
    pixels, why = _photograph(record, folders, is_round)
    return PlateButton(name, diameter, tuple(says), is_round, pixels), why


def _photograph(
    record: "pd.DataFrame", folders: Mapping[str, Path], is_round: bool
) -> "tuple[NDArray[np.uint8] | None, list[str]]":
    """Give the first of a record's photographs that shows the button clear of its ground."""
    from buttonstudy.draw.photographs import button_extent
    from buttonstudy.study.evidence.columns import texts
    from buttonstudy.survey.photographs import load_photographs

    text, folder = str(texts(record, "photos")[0]), folders.get(str(texts(record, "file")[0]))
    if not text or folder is None:
        return None, []
    found, errors = load_photographs(text, folder)
    for one in found:
        extent = button_extent(one.pixels, round=is_round)
        if extent is not None:
            box = slice(extent.top, extent.bottom), slice(extent.left, extent.right)
            return one.pixels[box], []
    why = [error.says.rstrip(".") for error in errors[:1]]
    unclear = ["in no photograph does the button stand clear of a plain ground"] if found else []
    return None, why + unclear
