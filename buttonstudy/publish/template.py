"""The workbook in which a survey is noted: one row a button, explained as it is filled in.

Every cell to fill in is formatted as text, so that 5/8 stays 5/8 and 007 stays 007. Lists to
choose from come from the vocabulary and take a new term after a warning. Beside the sheet of
records stand invented examples, definitions, the lists, and questions about the survey; these say
in their first cell that they are not read as records.
"""

from collections.abc import Sequence
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.places import new_file
from buttonstudy.publish.record_form import FormField, form_fields
from buttonstudy.publish.workbook_style import Styles, new_workbook, set_height, set_to_print
from buttonstudy.schemes import Vocabulary, vocabulary
from buttonstudy.schemes.tables import rows
from buttonstudy.survey.unread import NOT_RECORDS

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

__all__ = ["write_template"]

_RECORDS, _EXAMPLES, _DEFINITIONS = "Buttons", "Examples", "Definitions"
_LISTS, _ABOUT = "Lists", "About the survey"
_LAST_ROW = 1_048_575  # of a workbook's sheet, counted from 0
_LIST_TOP = 2
_WIDTHS = {"id": 12, "length": 13, "date": 14, "count": 12, "opened": 14, "term": 20, "text": 20}
_DEFINITION_WIDTHS = (22, 24, 60, 60, 12)
_ABOUT_COLUMNS = (("Question", 34), ("Answer", 60), ("What to tell", 60))
_EXAMPLE_COLUMNS = ("first", "second", "third")
_STATE_COLUMN = "Any feature"
_STATE_MEANINGS = (
    ("absent", "Looked for, and not there."),
    ("not examined", "Nobody could see, as inside a button that was not opened."),
    ("unclear", "Looked, and could not tell."),
    ("(empty)", "Not recorded."),
)


def write_template(
    path: str | Path, *, names: Sequence[str] = (), unit: str = "mm", terms: str = ""
) -> Path:
    """Write a workbook to fill in.

    Parameters
    ----------
    path
        A new file that ends with .xlsx.
    names
        Fields of the record that get a column; none stands for all.
    unit
        The unit of lengths that are written without one.
    terms
        Path of a user's own vocabulary table.

    Raises
    ------
    CallError
        If the file is already there, or a field or unit is not known.
    PublishError
        If it cannot be written.
    SchemeError
        If the vocabulary cannot be used.
    """
    place = new_file(path, ".xlsx")
    own = vocabulary(terms or None)
    write_aside(place, _content(form_fields(names, unit, own), own), fresh=True)
    return place


def _content(form: Sequence[FormField], terms: Vocabulary) -> bytes:
    content = BytesIO()
    with new_workbook(content) as book:
        styles = Styles(book)
        sheets = {
            name: book.add_worksheet(name)
            for name in (_RECORDS, _EXAMPLES, _DEFINITIONS, _LISTS, _ABOUT)
        }
        _records(sheets[_RECORDS], form, styles)
        _examples(sheets[_EXAMPLES], form, styles)
        _definitions(sheets[_DEFINITIONS], form, terms, styles)
        _lists(sheets[_LISTS], form, styles)
        _about(sheets[_ABOUT], styles)
        sheets[_RECORDS].activate()
    return content.getvalue()


def _records(sheet: "Worksheet", form: Sequence[FormField], styles: Styles) -> None:
    _headings(sheet, 0, form, styles)
    for column, one in enumerate(form):
        sheet.data_validation(1, column, _LAST_ROW, column, _validation(one, column))
    sheet.ignore_errors({"number_stored_as_text": f"A2:XFD{_LAST_ROW + 1}"})
    sheet.freeze_panes(1, 1)
    set_to_print(sheet, 0, 0)
    sheet.repeat_columns(0)


def _headings(sheet: "Worksheet", row: int, form: Sequence[FormField], styles: Styles) -> None:
    sheet.set_row(row, 32)
    for column, one in enumerate(form):
        sheet.set_column(column, column, _WIDTHS[one.field.kind], styles.text)
        sheet.write_string(
            row, column, one.heading, styles.inside if one.field.inside else styles.heading
        )


def _validation(one: FormField, column: int) -> dict[str, object]:
    """Explain a cell and offer its list; only a term that is not listed asks for a second look."""
    told: dict[str, object] = {
        "validate": "any",
        "input_title": one.field.label,
        "input_message": _message(one),
    }
    if not one.choices:
        return told
    return told | {
        "validate": "list",
        "source": _source(one, column),
        "error_type": "warning",
        "error_title": "Not in the list",
        "error_message": "Keep it if it is a new term, or several terms parted by semicolons.",
        "show_error": one.field.kind in ("term", "opened"),
    }


def _message(one: FormField) -> str:
    """Explain one field in the 255 characters that a spreadsheet program shows beside a cell."""
    seen = "Seen only on an opened button." if one.field.inside else ""
    return " ".join(filter(None, (one.field.definition, seen, one.hint)))


def _source(one: FormField, column: int) -> str:
    from xlsxwriter.utility import xl_range_abs

    cells = xl_range_abs(_LIST_TOP, column, _LIST_TOP + len(one.choices) - 1, column)
    return f"={_LISTS}!{cells}"


def _lists(sheet: "Worksheet", form: Sequence[FormField], styles: Styles) -> None:
    """Write the lists to choose from, each in the column that its field has among the records."""
    sheet.write_string(0, 0, f"Lists to choose from. {NOT_RECORDS}", styles.title)
    for column, one in enumerate(form):
        sheet.set_column(column, column, _WIDTHS["term"], styles.text)
        if one.choices:
            sheet.write_string(_LIST_TOP - 1, column, one.field.label, styles.heading)
            sheet.write_column(_LIST_TOP, column, one.choices, styles.text)
    sheet.freeze_panes(_LIST_TOP, 0)
    set_to_print(sheet, _LIST_TOP - 1, 0)


def _examples(sheet: "Worksheet", form: Sequence[FormField], styles: Styles) -> None:
    says = f"Invented examples: these buttons and people do not exist. {NOT_RECORDS}"
    _headings(sheet, 2, form, styles)
    sheet.write_string(0, 0, says, styles.title)
    cells = {row["field"]: row for row in rows("template_examples")}
    for column, one in enumerate(form):
        for number, example in enumerate(_EXAMPLE_COLUMNS, start=3):
            sheet.write_string(number, column, cells[one.field.field][example], styles.text)
    sheet.freeze_panes(3, 1)
    set_to_print(sheet, 2, 0)
    sheet.repeat_columns(0)


def _definitions(
    sheet: "Worksheet", form: Sequence[FormField], terms: Vocabulary, styles: Styles
) -> None:
    says = f"What each column means, and what each term means. {NOT_RECORDS}"
    sheet.write_string(0, 0, says, styles.title)
    lines = [("Column", "Term", "Meaning", "How to write it, or source", "AAT")]
    for one in form:
        seen = " Seen only on an opened button." * one.field.inside
        lines.append((one.heading, "", one.field.definition + seen, one.hint, ""))
    lines += [(_STATE_COLUMN, *line, "", "") for line in _STATE_MEANINGS]
    for one in form:
        for term in terms.terms(one.field.field):
            lines.append((one.field.label, term.term, term.definition, term.source, term.aat))
    for column, width in enumerate(_DEFINITION_WIDTHS):
        sheet.set_column(column, column, width, styles.wrapped)
    for number, line in enumerate(lines, start=2):
        set_height(sheet, number, line, _DEFINITION_WIDTHS)
        for column, words in enumerate(line):
            sheet.write_string(
                number, column, words, styles.heading if number == 2 else styles.wrapped
            )
    sheet.freeze_panes(3, 0)
    set_to_print(sheet, 2, 1)


def _about(sheet: "Worksheet", styles: Styles) -> None:
    sheet.write_string(0, 0, f"About this survey. {NOT_RECORDS}", styles.title)
    for column, (heading, width) in enumerate(_ABOUT_COLUMNS):
        sheet.set_column(column, column, width, styles.wrapped)
        sheet.write_string(2, column, heading, styles.heading)
    for number, row in enumerate(rows("about_questions"), start=3):
        sheet.write_string(number, 0, row["question"], styles.wrapped)
        sheet.write_string(number, 2, row["hint"], styles.wrapped)
        set_height(sheet, number, [row["hint"]], [_ABOUT_COLUMNS[2][1]])
    set_to_print(sheet, 2, 1)
