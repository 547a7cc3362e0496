"""A whole run with a real kernel: the folder, the zip, and what must not be in them."""

import json
import zipfile

import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.newsletter.making import PackWanted, make_newsletter, remarks
from buttonstudy.publish.notebooks import choose_notebooks
from buttonstudy.publish.provenance import check_replaceable
from buttonstudy.schemes import SchemeError

STEM = "figures/newsletter-sizes-size-classes"


@pytest.fixture(scope="module")
def made(survey_file, tmp_path_factory):
    place = tmp_path_factory.mktemp("made") / "pack"
    wanted = PackWanted(["sizes-size-classes"], "page", "A5", "Of sizes, and more", names=False)
    return make_newsletter([survey_file], place, name="Buttons of Emberby", wanted=wanted)


def test_the_folder_holds_what_an_editor_needs_and_no_records(made):
    assert made.finished
    here = {path.relative_to(made.folder).as_posix() for path in made.folder.rglob("*.*")}
    assert here == {
        "article.docx",
        "article.txt",
        "proof.pdf",
        "newsletter.zip",
        "provenance.json",
        "sources.csv",
        "notebooks/newsletter.ipynb",
        "figures/newsletter-captions.csv",
        *(f"{STEM}{ending}" for ending in (".png", "-grey.png", ".tif", ".pdf", ".svg")),
    }
    check_replaceable(made.folder)


def test_the_zip_holds_the_same_files_without_a_date(made):
    with zipfile.ZipFile(made.folder / "newsletter.zip") as packed:
        entries = packed.infolist()
        for entry in entries:
            file = made.folder / entry.filename.removeprefix("newsletter/")
            assert packed.read(entry) == file.read_bytes()
            assert entry.date_time == (1980, 1, 1, 0, 0, 0)
    assert len(entries) == 11


def test_a_pack_without_names_names_nobody(made):
    for path in made.folder.rglob("*.*"):
        if path.suffix in {".txt", ".ipynb", ".json", ".csv", ".svg"}:
            text = path.read_text(encoding="utf-8-sig")
            assert "Ada Tarn" not in text, path
            assert "Vell" not in text, path


def test_the_notebook_tells_how_the_pack_was_made_and_no_path(made):
    text = (made.folder / "notebooks" / "newsletter.ipynb").read_text(encoding="utf-8")
    cells = json.loads(text)["cells"]
    told = next("".join(cell["source"]) for cell in cells if cell["id"] == "set-by-report")
    assert 'surveys = ["tarn.csv"]' in told
    assert 'title = "Of sizes, and more"' in told
    assert 'figure_size = "a5-page"' in told
    assert str(made.folder.parent) not in text


def test_what_was_made_is_told(made):
    assert remarks(made)[0].startswith("The article with 1 figure is saved as article.docx, ")
    article = (made.folder / "article.txt").read_text(encoding="utf-8")
    assert article.startswith("Of sizes, and more\n")


def test_the_survey_is_called_as_asked_also_in_how_to_cite_it(made):
    article = (made.folder / "article.txt").read_text(encoding="utf-8")
    assert "The survey: “Buttons of Emberby”, survey of buttons" in article
    assert "Tarn”" not in article


def test_an_unknown_figure_or_width_is_told_before_anything_is_read():
    with pytest.raises(CallError, match="Did you mean sizes-size-classes?"):
        make_newsletter(["not there.csv"], wanted=PackWanted(["size-classes,fills-ties"]))
    with pytest.raises(SchemeError, match='no print size called "a7-column"'):
        make_newsletter(["not there.csv"], wanted=PackWanted(paper="A7"))


def test_a_report_does_not_run_the_newsletter_of_itself():
    names = [notebook.name for notebook in choose_notebooks()]
    assert "sizes" in names
    assert "newsletter" not in names
    assert [one.name for one in choose_notebooks(["newsletter"])] == ["newsletter"]
