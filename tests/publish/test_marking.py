"""The marked copy, looked at with openpyxl and read back by the kit."""

import hashlib
import shutil
import subprocess

import openpyxl
import pytest
import xlsxwriter

import buttonstudy as bs
from buttonstudy.publish.archive import Statement, export_survey
from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.marking import write_marked
from buttonstudy.survey.load import demo_folder

DEMO = sorted(demo_folder().iterdir())
MESSY = """\
Button no.,Diameter (mm),Mould material,Date,Shelf
1,16,wood,1840,=1+1
2,big,wodo,1840,@home
,15 mm and 19 mm,wood,soon,-3
"""


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


@pytest.fixture
def messy(tmp_path):
    path = tmp_path / "messy.csv"
    path.write_text(MESSY)
    return path


@pytest.fixture
def marked(messy, tmp_path):
    survey = bs.load_survey(messy)
    (path,) = write_marked(survey, [messy], tmp_path / "marked.xlsx")
    return survey, path, openpyxl.load_workbook(path)


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.name)
def test_the_copy_is_understood_just_as_the_survey_and_the_survey_is_untouched(path, tmp_path):
    before = digest(path), path.stat().st_mtime_ns
    ours = bs.load_survey(path)
    (copy,) = write_marked(ours, [path], tmp_path / "marked.xlsx")
    theirs = bs.load_survey(copy)
    places = ["file", "sheet"]
    assert ours.buttons.drop(columns=places).equals(theirs.buttons.drop(columns=places))
    told = ["row", "wording", "what_to_do", "kind", "level"]
    assert ours.problems[told].values.tolist() == theirs.problems[told].values.tolist()
    assert (digest(path), path.stat().st_mtime_ns) == before


def test_every_problem_cell_is_coloured_and_says_what_to_do(marked):
    survey, _, book = marked
    sheet = book["messy"]
    told = survey.problems[survey.problems["column"].str.startswith("B: ")]
    assert set(told["row"]) == {3, 4}
    for problem in told.itertuples():
        cell = sheet[f"B{problem.row}"]
        assert problem.problem in cell.comment.text
        assert problem.what_to_do in cell.comment.text
        assert problem.level.upper() in cell.comment.text
    assert sheet["B3"].fill.fgColor.rgb == "FFF4B183"
    assert sheet["C3"].comment
    assert sheet["B2"].comment is None
    assert sheet["B2"].fill.fgColor.rgb != sheet["B3"].fill.fgColor.rgb


def test_the_first_sheet_lists_all_problems_with_links_to_their_cells(marked):
    survey, _, book = marked
    front = book.worksheets[0]
    assert front.title == "Problems"
    assert front["A1"].value == "Problems in messy.csv. This sheet is not read as records."
    rows = list(front.iter_rows(min_row=5))
    gravest_first = survey.problems.sort_values("level", kind="stable")
    assert [row[3].value for row in rows] == gravest_first["problem"].tolist()
    assert [row[0].value for row in rows] == gravest_first["level"].astype(str).tolist()
    codes = gravest_first["kind"].where(gravest_first["level"] != "not read", "")
    assert [row[5].value for row in rows] == codes.tolist()
    places = {row[1].hyperlink.location: row for row in rows if row[1].hyperlink}
    assert places["'messy'!B3"][1].value == "messy B3"
    assert places["'messy'!B3"][2].value == "big"
    for target in places:
        name, _, cell = target.partition("!")
        assert book[name.strip("'")][cell].comment


def test_a_survey_without_problems_gets_a_list_that_says_so(tmp_path):
    path = tmp_path / "fine.csv"
    path.write_text("Button no.,Diameter (mm)\n1,16\n2,15\n")
    (copy,) = write_marked(bs.load_survey(path), [path], tmp_path / "out.xlsx")
    assert openpyxl.load_workbook(copy).worksheets[0]["A5"].value == "None was found."


def test_text_like_a_formula_stays_text_even_when_it_is_edited(marked):
    survey, path, book = marked
    sheet = book["messy"]
    for place, text in (("E2", "=1+1"), ("E3", "@home")):
        assert sheet[place].data_type == "s"
        assert sheet[place].quotePrefix
        assert sheet[place].value == text
    assert not sheet["C2"].quotePrefix
    assert bs.load_survey(path).buttons["Shelf"].tolist() == ["=1+1", "@home", "-3"]
    assert survey.buttons["Shelf"].tolist() == ["=1+1", "@home", "-3"]


def test_sizes_that_became_dates_or_carry_their_unit_in_the_format_are_read_alike(tmp_path):
    import datetime as dt

    path = tmp_path / "shown.xlsx"
    with xlsxwriter.Workbook(path) as book:
        sheet = book.add_worksheet("Coats")
        for column, heading in enumerate(("Button no.", "Diameter", "Date", "Seen")):
            sheet.write(2, column + 1, heading)
        cells = [(dt.date(2026, 8, 5), "d-mmm"), (1.25, "# ?/?"), (16, '0" mm"')]
        for number, (value, form) in enumerate(cells, start=3):
            sheet.write(number, 1, f"K{number}")
            sheet.write(number, 2, value, book.add_format({"num_format": form}))
            sheet.write(number, 4, True)
        sheet.merge_range(3, 3, 5, 3, "1850")
    ours = bs.load_survey(path)
    (copy,) = write_marked(ours, [path], tmp_path / "out.xlsx")
    theirs = bs.load_survey(copy)
    assert ours.buttons["diameter_wording"].tolist()[0] == "5-Aug"
    assert ours.buttons["year_from"].tolist() == [1850] * 3
    assert ours.buttons.drop(columns="file").equals(theirs.buttons.drop(columns="file"))
    assert openpyxl.load_workbook(copy)["Coats"]["E4"].value is True


def test_sheets_whose_names_are_taken_or_not_allowed_get_others(tmp_path):
    path = tmp_path / "problems.csv"
    path.write_text(MESSY)
    (copy,) = write_marked(bs.load_survey(path), [path], tmp_path / "out.xlsx")
    assert openpyxl.load_workbook(copy).sheetnames == ["Problems (2)", "problems"]


def test_several_surveys_go_into_a_folder_each_with_its_own_copy(messy, tmp_path):
    other = tmp_path / "other.csv"
    other.write_text("Button no.,Diameter (mm)\n1,16\n")
    survey = bs.load_survey([messy, other])
    with pytest.raises(CallError, match="These are 2 survey files, and a workbook is a marked"):
        write_marked(survey, [messy, other], tmp_path / "both.xlsx")
    written = write_marked(survey, [messy, other], tmp_path / "marked")
    assert [path.name for path in written] == ["messy-marked.xlsx", "other-marked.xlsx"]
    twice = openpyxl.load_workbook(written[1])["other"]["A2"]
    assert "Button number 1" in twice.comment.text
    with pytest.raises(CallError, match=r"messy-marked.xlsx is already there"):
        write_marked(survey, [messy, other], tmp_path / "marked")


def test_nothing_is_written_over(messy, tmp_path):
    survey = bs.load_survey(messy)
    taken = tmp_path / "taken.xlsx"
    taken.write_bytes(b"mine")
    for place in (taken, tmp_path / "no" / "x.xlsx", tmp_path / "x.ods", messy):
        with pytest.raises(CallError):
            write_marked(survey, [messy], place)
    assert taken.read_bytes() == b"mine"
    assert messy.read_text() == MESSY


def test_an_archive_has_no_cells_to_mark(messy, tmp_path):
    survey = bs.load_survey(messy)
    folder = export_survey(survey, tmp_path / "archive", Statement())
    with pytest.raises(CallError, match="is made of the survey files themselves. Name those."):
        write_marked(bs.load_survey(folder), [folder], tmp_path / "out.xlsx")


def test_a_survey_that_changes_meanwhile_is_told(messy, tmp_path):
    survey = bs.load_survey(messy)
    messy.write_text(MESSY + "5,17,wood,1850,\n")
    with pytest.raises(PublishError, match=r"messy.csv was changed while it was being checked"):
        write_marked(survey, [messy], tmp_path / "out.xlsx")
    assert not (tmp_path / "out.xlsx").exists()


def test_a_full_disk_leaves_nothing_behind(messy, tmp_path, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    survey = bs.load_survey(messy)
    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(PublishError, match="could not be written: no space left on device"):
        write_marked(survey, [messy], tmp_path / "out.xlsx")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["messy.csv"]


@pytest.mark.skipif(not shutil.which("soffice"), reason="LibreOffice is not installed")
def test_libreoffice_opens_the_copy_and_keeps_its_comments(marked, tmp_path):
    survey, path, _ = marked
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    told = ["soffice", profile, "--headless", "--convert-to", "ods", "--outdir", tmp_path, path]
    subprocess.run(told, check=True, capture_output=True, timeout=120)
    theirs = bs.load_survey(path.with_suffix(".ods"))
    places = ["file", "sheet"]
    assert survey.buttons.drop(columns=places).equals(theirs.buttons.drop(columns=places))
