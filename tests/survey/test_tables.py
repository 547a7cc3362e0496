from buttonstudy.survey.grid import Grid
from buttonstudy.survey.sheets import Sheet
from buttonstudy.survey.tables import find_tables


def sheet(*rows, **kwargs):
    return Sheet("A", Grid.of(rows), **kwargs)


HEADINGS = ["No.", "Diam (mm)", "Date", "Mould"]


def test_the_heading_row_is_found_below_titles_and_blank_rows():
    found = find_tables(
        sheet(
            ["Buttons of a drawer"],
            [],
            ["measured in spring"],
            HEADINGS,
            ["1", 16.0, "1850", "wood"],
        )
    )
    (table,) = found.tables
    assert table.headings == tuple(HEADINGS)
    assert table.heading_row == 4
    assert table.row_numbers == [5]
    assert found.around == ((1, "Buttons of a drawer"), (3, "measured in spring"))


def test_row_numbers_count_from_the_top_of_the_spreadsheet():
    (table,) = find_tables(sheet(HEADINGS, [], ["1", 16.0], first_row=10)).tables
    assert (table.heading_row, table.row_numbers, table.after_blank) == (10, [12], [True])


def test_a_title_over_two_cells_is_not_taken_for_headings():
    found = find_tables(
        sheet(["Survey", "of the Hill Street drawer"], HEADINGS, ["1", 16.0, "1850", "wood"])
    )
    assert found.tables[0].heading_row == 2


def test_headings_in_two_tiers_are_joined():
    found = find_tables(
        sheet(
            ["", "Mould", "", "Cover", ""],
            ["No.", "material", "diam (mm)", "material", "colour"],
            ["1", "wood", 15.0, "silk", "black"],
            merged=[(1, 1, 1, 2), (1, 3, 1, 4)],
        )
    )
    assert found.tables[0].headings == (
        "No.",
        "Mould material",
        "Mould diam (mm)",
        "Cover material",
        "Cover colour",
    )
    assert found.around == ()


def test_a_row_of_units_below_the_headings_belongs_to_them():
    (table,) = find_tables(
        sheet(["No.", "Diam", "Height"], ["", "(mm)", "(mm)"], ["1", 16.0, 4.0])
    ).tables
    assert table.headings == ("No.", "Diam (mm)", "Height (mm)")
    assert table.row_numbers == [3]


def test_the_same_headings_again_go_on_with_the_same_table():
    found = find_tables(sheet(HEADINGS, ["1", 16.0], HEADINGS, ["2", 17.0]))
    (table,) = found.tables
    assert table.row_numbers == [2, 4]
    assert found.repeated == (3,)


def test_other_headings_further_down_begin_a_second_table():
    found = find_tables(
        sheet(HEADINGS, ["1", 16.0], [], ["No.", "Size [L]", "Date", "Cover"], ["2", "26"])
    )
    assert [table.row_numbers for table in found.tables] == [[2], [5]]
    assert found.tables[1].headings == ("No.", "Size [L]", "Date", "Cover")


def test_a_sheet_without_headings_gives_its_rows_as_text():
    found = find_tables(sheet(["Dear friend"], [], ["here are", "the buttons"]))
    assert found.tables == ()
    assert found.around == ((1, "Dear friend"), (3, "here are | the buttons"))


def test_headings_named_in_a_mapping_file_make_a_heading_row():
    rows = sheet(["Kennung", "Maß"], ["1", "16 mm"])
    assert find_tables(rows).tables == ()
    assert find_tables(rows, ["Kennung", "Maß"]).tables[0].heading_row == 1


def test_a_cell_merged_down_stands_in_each_of_its_rows():
    (table,) = find_tables(
        sheet(
            ["No.", "Set", "Diam (mm)"],
            ["1", "S1", 16.0],
            ["2", "", 16.0],
            ["3", "", 17.0],
            merged=[(2, 1, 3, 1)],
        )
    ).tables
    assert [row[1] for row in table.rows] == ["S1", "S1", ""]


def test_an_empty_sheet_holds_nothing():
    assert find_tables(Sheet("A", Grid())).tables == ()
