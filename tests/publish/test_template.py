"""The workbook to fill in, read back by three readers: the kit, openpyxl and LibreOffice."""

import json
import shutil
import subprocess

import openpyxl
import pytest
from PIL import Image

import buttonstudy as bs
from buttonstudy.publish.archive import Statement, export_survey
from buttonstudy.publish.record_form import form_fields
from buttonstudy.publish.report import make_report
from buttonstudy.publish.surveys import given_name
from buttonstudy.publish.template import write_template
from buttonstudy.schemes import fields, rows, vocabulary


@pytest.fixture(scope="module")
def template(tmp_path_factory):
    return write_template(tmp_path_factory.mktemp("template") / "survey.xlsx")


@pytest.fixture(scope="module")
def filled(template):
    """The template with a row for every choice of every list, written by openpyxl."""
    form = [one.field.field for one in form_fields([], "mm", vocabulary())]
    book = openpyxl.load_workbook(template)
    chosen = [
        (one.field.field, words)
        for one in form_fields([], "mm", vocabulary())
        for words in one.choices
    ]
    for number, (field, words) in enumerate(chosen):
        row = {"button_id": f"00{number}", "diameter": "5/8 in", "date": "2000"}
        for name, text in (row | {"opened": "opened", "notes": "x", field: words}).items():
            book["Buttons"].cell(number + 2, form.index(name) + 1).value = text
    questions = {row[0].value: row[1] for row in book["About the survey"].iter_rows()}
    questions["Name of the survey"].value = "The drawers of <Emberby>"
    path = template.with_name("filled.xlsx")
    book.save(path)
    return path


def test_an_empty_template_is_read_with_every_column_known(template):
    survey = bs.load_survey(template)
    assert len(survey.buttons) == 0
    assert survey.columns["how"].tolist() == ["heading"] * len(fields())
    assert survey.problems["level"].tolist() == ["for information"]
    assert survey.problems["what_to_do"].tolist() == ["Nothing, if no button was noted yet."]


def test_a_filled_template_is_read_without_any_problem(filled):
    survey = bs.load_survey(filled)
    assert survey.problems.values.tolist() == []
    assert set(survey.columns["how"]) == {"heading"}
    assert set(survey.buttons["sheet"]) == {"Buttons"}
    assert survey.buttons["button_id"].tolist()[:2] == ["000", "001"]
    assert survey.buttons["diameter_unit"].tolist()[0] == "in"
    for field in {term.field for term in vocabulary().entries}:
        terms = {term.term for term in vocabulary().terms(field)}
        assert terms <= set(survey.buttons[field].astype("str"))


def test_every_field_has_examples_and_a_word_on_how_to_write_it():
    assert [row["field"] for row in rows("template_examples")] == [one.field for one in fields()]
    assert {row["kind"] for row in rows("writing_hints")} == {one.kind for one in fields()}


def test_the_examples_are_read_without_a_problem_where_they_are_records(template, tmp_path):
    sheet = openpyxl.load_workbook(template)["Examples"]
    book = openpyxl.Workbook()
    for row in sheet.iter_rows(min_row=3, values_only=True):
        book.active.append(row)
    book.save(tmp_path / "examples.xlsx")
    Image.new("RGB", (2, 2)).save(tmp_path / "example-1.jpg")
    survey = bs.load_survey(tmp_path / "examples.xlsx")
    assert survey.buttons["button_id"].tolist() == ["Example 1", "Example 2", "Example 3"]
    assert survey.problems.values.tolist() == []


def test_the_sheets_beside_the_records_say_that_they_are_none(template):
    book = openpyxl.load_workbook(template)
    assert book.sheetnames == ["Buttons", "Examples", "Definitions", "Lists", "About the survey"]
    for name in book.sheetnames[1:]:
        assert "This sheet is not read as records." in book[name]["A1"].value
    assert "Invented" in book["Examples"]["A1"].value


def test_cells_are_text_lists_take_new_terms_and_headings_stay_in_sight(template):
    sheet = openpyxl.load_workbook(template)["Buttons"]
    assert sheet.freeze_panes == "B2"
    headings = {cell.value: cell.column_letter for cell in sheet[1]}
    columns = list(sheet.column_dimensions.values())  # openpyxl joins columns of one format
    assert {one.number_format for one in columns} == {"@"}
    assert (columns[0].min, columns[-1].max) == (1, len(headings))
    checks = {
        str(one.sqref).rstrip("0123456789").split(":")[1]: one
        for one in sheet.data_validations.dataValidation
    }
    assert set(checks) == set(headings.values())
    mould = checks[headings["Mould material"]]
    assert (mould.type, mould.errorStyle, mould.showErrorMessage) == ("list", "warning", True)
    assert "What the mould under the cover is made of." in mould.prompt
    assert "Seen only on an opened button." in mould.prompt
    hole = checks[headings["Hole diameter (mm)"]]
    assert (hole.type, hole.showErrorMessage) == ("list", False)
    assert all(len(one.prompt) <= 255 and len(one.promptTitle) <= 32 for one in checks.values())


def test_a_list_names_the_cells_that_hold_its_terms(template):
    book = openpyxl.load_workbook(template)
    of = {one.promptTitle: one for one in book["Buttons"].data_validations.dataValidation}
    name, _, cells = of["Thread"].formula1.lstrip("=").partition("!")
    listed = [row[0].value for row in book[name][cells.replace("$", "")]]
    assert listed == [
        *(term.term for term in vocabulary().terms("thread")),
        "absent",
        "not examined",
        "unclear",
    ]


def test_fields_unit_and_vocabulary_can_be_chosen(tmp_path):
    own = tmp_path / "own.csv"
    own.write_text("field,term,definition\nthread,bog cotton,Invented for a test.\n")
    path = write_template(
        tmp_path / "own.xlsx", names=["diameter", "thread"], unit="in", terms=str(own)
    )
    book = openpyxl.load_workbook(path)
    headings = [cell.value for cell in book["Buttons"][1]]
    assert headings == ["Button no.", "Diameter (in)", "Thread"]
    assert book["Lists"]["C3"].value == "bog cotton"
    said = [row[2].value for row in book["Definitions"].iter_rows(min_row=3)]
    assert "Invented for a test." in said


def test_the_same_call_writes_the_same_bytes(template, tmp_path):
    assert write_template(tmp_path / "again.xlsx").read_bytes() == template.read_bytes()


@pytest.fixture(scope="module")
def office(tmp_path_factory):
    """Convert a workbook in LibreOffice."""
    program = shutil.which("soffice")
    if not program:
        pytest.skip("LibreOffice is not installed")
    folder = tmp_path_factory.mktemp("office")

    def convert(path, to):
        profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
        told = [program, profile, "--headless", "--convert-to", to, "--outdir", folder, path]
        subprocess.run(told, check=True, capture_output=True, timeout=120)
        return folder / f"{path.stem}.{to}"

    return convert


def test_libreoffice_reads_the_filled_template_and_what_it_writes_is_read_alike(office, filled):
    ours, theirs = bs.load_survey(filled), bs.load_survey(office(filled, "ods"))
    assert theirs.problems.values.tolist() == []
    assert theirs.sources["survey_name"].tolist() == ["The drawers of <Emberby>"]
    assert ours.buttons.drop(columns="file").equals(theirs.buttons.drop(columns="file"))


def test_a_report_and_an_archive_are_called_as_the_sheet_about_the_survey_says(
    filled, notebooks, tmp_path
):
    told = {"notebooks": [str(notebooks / "drawing.ipynb")]}
    report = make_report([filled], tmp_path / "report", **told).folder
    page = (report / "index.html").read_text(encoding="utf-8")
    assert "<h1>The drawers of &lt;Emberby&gt;</h1>" in page
    named = make_report([filled], tmp_path / "named", name="Other", **told).folder
    assert "<h1>Other</h1>" in (named / "index.html").read_text(encoding="utf-8")
    archive = export_survey(bs.load_survey(filled), tmp_path / "archive", Statement())
    package = json.loads((archive / "datapackage.json").read_text(encoding="utf-8"))
    assert package["title"] == "The drawers of <Emberby>"
    again = export_survey(bs.load_survey(archive), tmp_path / "again", Statement("Mine"))
    assert '"title": "Mine"' in (again / "datapackage.json").read_text(encoding="utf-8")
    assert given_name(bs.load_survey(again)) == "The drawers of <Emberby>"


def test_libreoffice_prints_the_template(office, template):
    from pypdf import PdfReader

    pages = PdfReader(office(template, "pdf")).pages
    words = " ".join(" ".join(page.extract_text().split()) for page in pages)
    assert "What each column means, and what each term means." in words
    assert "Measuring tools and their steps" in words
    assert {tuple(round(float(side)) for side in page.mediabox[2:]) for page in pages} == {
        (842, 595)
    }
