"""Any sheet written and read again holds the same cells."""

from io import BytesIO

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from python_calamine import CalamineWorkbook

from buttonstudy.publish.errors import PublishError
from buttonstudy.publish.marked_sheets import Mark, SheetWriter
from buttonstudy.publish.workbook_style import LONGEST_TEXT, new_workbook
from buttonstudy.survey.grid import Grid
from buttonstudy.survey.sheets import Sheet, wording


def written(sheet, marks=None):
    content = BytesIO()
    with new_workbook(content) as book:
        SheetWriter(book).write(book.add_worksheet("A"), sheet, marks or {})
    return CalamineWorkbook.from_filelike(BytesIO(content.getvalue())).get_sheet_by_name("A")


CELLS = st.one_of(
    st.text(st.characters(codec="utf-8", exclude_characters="\x00\ufffe\uffff"), max_size=12),
    st.text(alphabet="=+-@'_x0041\t\r\n <>&\"", max_size=8),
    st.floats(allow_nan=False, allow_infinity=False),
    st.integers(),
    st.booleans(),
    st.dates(),
)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.lists(CELLS, min_size=3, max_size=3), min_size=1, max_size=4))
def test_what_is_read_back_is_what_was_read(rows):
    rows = [["edge", *row, "edge"] for row in rows]
    back = written(Sheet("A", Grid.of(rows))).to_python(skip_empty_area=True)
    assert [[wording(cell) for cell in row] for row in back] == [
        [wording(cell) for cell in row] for row in rows
    ]


def test_cells_keep_their_place_in_the_sheet():
    sheet = written(Sheet("A", Grid.of([["x"]]), first_row=5, first_column=2))
    assert sheet.start == (4, 2)


def test_a_cell_longer_than_a_workbook_takes_is_cut():
    back = written(Sheet("A", Grid.of([["y" * 40_000]]))).to_python()
    assert back == [["y" * LONGEST_TEXT]]


def test_an_empty_cell_can_be_marked():
    sheet = written(Sheet("A", Grid.of([["a", ""]])), {(1, 1): Mark("to confirm", "Look.")})
    assert sheet.to_python()[0][0] == "a"


def test_more_rows_than_a_workbook_has_are_refused():
    with pytest.raises(
        PublishError, match="has 1,048,577 rows and 1 columns, more than a workbook"
    ):
        written(Sheet("A", Grid.of([["x"]]), first_row=1_048_577))
