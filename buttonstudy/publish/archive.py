"""A survey as an archive: tidy tables, described so that anybody can read them without the kit.

The folder holds the button records as CSV and Parquet, the problems, what each heading was taken
for, what every wording was read as, the survey files' hashes, the vocabulary and the researcher's
own tables (mapping, accepted findings, schemes) as CSV, and ``datapackage.json``, which describes
them by the open Data Package standard: types, units, definitions, licence and sources. The kit
reads the folder back as the survey that was exported.
"""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, cast

from buttonstudy import __version__
from buttonstudy.publish.aside import move_into_place, working_folder, write_aside
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.csv_files import csv_text
from buttonstudy.publish.errors import CallError
from buttonstudy.publish.fingerprints import fingerprint
from buttonstudy.publish.names import safe_name
from buttonstudy.publish.own_tables import (
    ARCHIVED,
    OwnTable,
    kept_tables,
    own_frame,
    own_tables,
    vocabulary_of,
)
from buttonstudy.publish.surveys import given_name
from buttonstudy.publish.table_schema import described
from buttonstudy.schemes import Term, rows
from buttonstudy.survey.exported import DESCRIPTOR, HOLDS
from buttonstudy.survey.saved import TABLES
from buttonstudy.survey.wordings import wordings_read

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["Statement", "export_survey", "licence_remark"]

_STANDARD = "https://datapackage.org/profiles/2.0/datapackage.json"
_AAT = "http://vocab.getty.edu/aat/"  # as the thesaurus names its concepts
_SUBJECT = "buttons (fasteners)", "300239261"  # as an archive's open collection data names it
_ADDRESS = ("https://", "http://")
_WITH_VERSION = re.compile(r"[A-Za-z]\w*(?:-\w+)*-\d+(?:\.\d+)+(?:-[A-Za-z]+)*")
_LICENCE_NAME = re.compile(r"[-a-zA-Z0-9._]+")  # what the standard allows
_TITLES = {
    "buttons": "Button records",
    "problems": "What could not be read or is doubtful",
    "columns": "What each heading was taken for",
    "wordings": "What every wording was read as",
    "sources": "Survey files",
    "vocabulary": "Preferred terms",
}
_ABOUT = (
    "One row of buttons.csv is one button record; buttons.parquet holds the same. A term is a "
    "preferred term of vocabulary.csv, or several joined by a semicolon, or a state: absent "
    "(looked for, not there), not examined (nobody could see), unclear (looked, could not tell). "
    "An empty cell is not recorded. In the CSV files a text that begins like a formula has an "
    "apostrophe before it, so that no spreadsheet program runs it."
)


@dataclass(frozen=True, slots=True)
class Statement:
    """What the researcher says of an archive.

    Parameters
    ----------
    title
        The survey's title; by default what its files call it, or else the name of the folder.
    licence
        A licence's short name, such as ``"CC-BY-4.0"``, or its address.
    sources
        Where the records come from, one text for each.
    """

    title: str = ""
    licence: str = ""
    sources: tuple[str, ...] = ()


def export_survey(
    survey: "Survey",
    to: str | Path,
    statement: Statement,
    choices: Choices | None = None,
    paths: Sequence[str | Path] = (),
) -> Path:
    """Write an archive.

    Parameters
    ----------
    survey
        What `load_survey` gave.
    to
        A new or empty folder.
    statement
        Title, licence and sources.
    choices
        With which the survey was read; tables of the user's own among them go into the archive.
        Not taken from the survey's settings: those of an archive that was received name files
        of somebody else.
    paths
        From where it was read. The tables of its own that an archive holds go into the new one.

    Raises
    ------
    CallError
        If the folder holds something, the licence cannot be a name, or there is no record.
    PublishError
        If it cannot be written.
    """
    place = _place(to)
    title = statement.title or given_name(survey) or place.resolve().name
    about = _stated(statement)
    if not len(survey.buttons):
        raise CallError(
            "No button record could be read, so there is nothing to export. "
            "Ask buttonstudy check for the reasons."
        )
    tables = {name: cast("pd.DataFrame", getattr(survey, name)) for name in TABLES}
    chosen = choices or Choices()
    terms = vocabulary_of(paths, chosen)
    tables["wordings"] = wordings_read(survey.buttons, survey.columns, terms)
    tables["vocabulary"] = _vocabulary_table(terms.entries)
    own = kept_tables(paths) or own_tables(cast("Mapping[str, str]", chosen.reading()))
    with working_folder(place.resolve()) as working:
        listed = [_write_table(working.folder, name, frame) for name, frame in tables.items()]
        listed.insert(1, _write_parquet(working.folder, survey.buttons))
        listed += [_write_own(working.folder, one) for one in own]
        package = {
            "$schema": _STANDARD,
            "name": safe_name(title, "survey"),
            "title": title,
            **about,
            "description": _ABOUT,
            "keywords": [_SUBJECT[0]],
            "subject": f"{_AAT}{_SUBJECT[1]}",
            "holds": HOLDS,
            "kit": __version__,
            "conventions": dict(survey.settings),
            "resources": listed,
        }
        text = json.dumps(package, ensure_ascii=False, indent=1) + "\n"
        write_aside(working.folder / DESCRIPTOR, text.encode())
        if not move_into_place(working, fresh=True):  # another run was quicker
            raise CallError(_taken(to))
    return place


def licence_remark(licence: str) -> str:
    """Return what to say of a licence that is neither an address nor a known kind of name.

    Known are names with a version, as the SPDX License List has them, and those of its names in
    ``licences.csv`` that have none.

    Examples
    --------
    >>> licence_remark("CC-BY-4.0"), licence_remark("https://example.org/terms")
    ('', '')
    >>> licence_remark("BLAH")
    'BLAH is kept as written; it is no known licence name, such as CC-BY-4.0.'
    """
    name = licence.strip()
    known = {row["name"].casefold() for row in rows("licences")}
    if not name or name.startswith(_ADDRESS) or name.casefold() in known:
        return ""
    if _WITH_VERSION.fullmatch(name):
        return ""
    return f"{name} is kept as written; it is no known licence name, such as CC-BY-4.0."


def _place(to: str | Path) -> Path:
    place = Path(to)
    if place.exists() and (not place.is_dir() or any(place.iterdir())):
        raise CallError(_taken(to))
    if not place.resolve().parent.is_dir():
        raise CallError(f"There is no folder {place.parent}. Make it first, or choose another.")
    return place


def _taken(to: str | Path) -> str:
    return f"{to} already holds something and was left alone. Choose a new folder with --to."


def _stated(statement: Statement) -> dict[str, object]:
    """Put licence and sources into the standard's words."""
    about: dict[str, object] = {}
    licence = statement.licence.strip()
    if licence.startswith(_ADDRESS):
        about["licenses"] = [{"path": licence}]
    elif licence:
        if not _LICENCE_NAME.fullmatch(licence):
            raise CallError(
                f'"{licence}" cannot be the name of a licence. Write its short name, such as '
                "CC-BY-4.0, or its address."
            )
        about["licenses"] = [{"name": licence}]
    if statement.sources:
        about["sources"] = [{"title": source} for source in statement.sources]
    return about


def _vocabulary_table(terms: Sequence[Term]) -> "pd.DataFrame":
    import pandas as pd

    lines = [
        {
            "field": one.field,
            "term": one.term,
            "synonyms": "|".join(one.synonyms),
            "definition": one.definition,
            "source": one.source,
            "aat": one.aat,
            "aat_uri": f"{_AAT}{one.aat}" if one.aat else "",
            "vaguer": one.vaguer,
        }
        for one in terms
    ]
    return pd.DataFrame(lines, dtype="str").replace("", None).astype("str")


def _write_table(folder: Path, name: str, frame: "pd.DataFrame") -> dict[str, object]:
    content = csv_text(frame).encode("utf-8", errors="replace")
    schema: dict[str, object] = {"fields": described(frame, name)}
    if name == "vocabulary":
        schema["primaryKey"] = ["field", "term"]
    return _as_table(_written(folder / f"{name}.csv", name, content), _TITLES[name], schema)


def _write_own(folder: Path, one: OwnTable) -> dict[str, object]:
    """Write what a table of the researcher's own says, in the form of the others."""
    frame = own_frame(one)
    text = frame.to_csv(index=False, lineterminator="\r\n")
    name = f"{ARCHIVED}{one.name}"
    written = _written(folder / f"{name}.csv", name, text.encode())
    words = one.setting.replace("_", " ")
    says = (
        f"A column of the researcher's own table ({words}), as text, without blanks around it and "
        "without blank rows; an apostrophe stands before what begins like a formula."
    )
    fields = [
        {"name": heading, "type": "string", "title": heading, "description": says}
        for heading in frame.columns
    ]
    return _as_table(written, f"The researcher's own table: {words}", {"fields": fields})


def _as_table(
    written: dict[str, object], title: str, schema: dict[str, object]
) -> dict[str, object]:
    return {
        **written,
        "title": title,
        "type": "table",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {"delimiter": ",", "lineTerminator": "\r\n"},
        "schema": schema,
    }


def _write_parquet(folder: Path, buttons: "pd.DataFrame") -> dict[str, object]:
    content = BytesIO()
    buttons.to_parquet(content, engine="pyarrow", index=False)
    told = _written(folder / "buttons.parquet", "buttons-parquet", content.getvalue())
    del told["bytes"]  # the standard's validator cannot count the bytes of a Parquet file
    return {
        **told,
        "title": f"{_TITLES['buttons']}, as Parquet",
        "type": "table",
        "format": "parquet",
        "mediatype": "application/vnd.apache.parquet",
        "schema": {"fields": described(buttons, "buttons")},
    }


def _written(path: Path, name: str, content: bytes) -> dict[str, object]:
    write_aside(path, content)
    digest = fingerprint(content)
    return {"name": name, "path": path.name, "bytes": len(content), "hash": f"sha256:{digest}"}
