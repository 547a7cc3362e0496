"""Whole runs with real kernels: few, and each looked at from many sides."""

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser

import nbformat
import pandas as pd
import pytest

from buttonstudy.publish.aside import clear_leftovers
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.errors import CallError
from buttonstudy.publish.progress import Progress
from buttonstudy.publish.provenance import check_replaceable
from buttonstudy.publish.report import make_report
from buttonstudy.publish.running import Ran

SURVEY = """Button no.,Diameter (mm),Cover material,Shelf <b>
1,16,linen,=1+1
2,15.9,<script>alert(1)</script>,@x
3,big,silk,-
"""
LINKS = re.compile(r"""(?:src|href|action|data|poster)=["']([^"']*)|url\(([^)]*)""")


class Tags(HTMLParser):
    """Collects the tags of a page with their attributes, and its text."""

    def __init__(self, html):
        super().__init__()
        self.found, self.text = [], ""
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.text += data

    def all(self, tag):
        return [attrs for name, attrs in self.found if name == tag]


@pytest.fixture(scope="module")
def survey_file(tmp_path_factory):
    path = tmp_path_factory.mktemp("surveys") / "invented.csv"
    path.write_text(SURVEY, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def finished(survey_file, notebooks, tmp_path_factory):
    place = tmp_path_factory.mktemp("finished") / "report"
    result = make_report(
        [survey_file],
        place,
        name="Buttons of <Emberby>",
        notebooks=[str(notebooks / "drawing.ipynb")],
        parameters={"garment": "1912.10"},
    )
    assert result.finished
    assert result.folder == place
    return place


@pytest.fixture(scope="module")
def pages(finished):
    return {path.name: path.read_text(encoding="utf-8") for path in finished.glob("*.html")}


def files(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_a_report_folder_holds_what_is_needed_and_nothing_else(finished):
    assert set(files(finished)) == {
        "index.html",
        "drawing.html",
        "problems.html",
        "buttons.csv",
        "columns.csv",
        "problems.csv",
        "wordings.csv",
        "provenance.json",
        "notebooks/drawing.ipynb",
        "figures/drawing-captions.csv",
        "figures/drawing-diameters.png",
        "figures/drawing-diameters.pdf",
        "figures/drawing-diameters.svg",
        "tables/drawing-covers.csv",
        "survey/survey.json",
        *(f"survey/{name}.parquet" for name in ("buttons", "columns", "problems", "sources")),
    }
    assert [path.name for path in finished.parent.iterdir()] == ["report"]


def test_a_report_is_titled_as_its_survey_is_called(pages):
    assert "<h1>Buttons of &lt;Emberby&gt;</h1>" in pages["index.html"]


def test_pages_ask_no_other_place_for_anything(finished, pages):
    for name, html in pages.items():
        for attribute, url in LINKS.findall(html):
            link = (attribute or url).strip("'\"")
            if link.startswith(("#", "data:")):
                continue
            assert (finished / link).is_file(), f"{name} leads to {link}"
        tags = Tags(html)
        assert not {"iframe", "object", "embed"} & {tag for tag, _ in tags.found}
        policy = next(meta for meta in tags.all("meta") if "http-equiv" in meta)["content"]
        assert policy.startswith("default-src 'none'; img-src data:;")
        assert tags.all("script") == [{}]  # the kit's own, in the page, and no other may run
        (script,) = re.findall(r"<script>(.*?)</script>", html, re.DOTALL)
        allowed = b64encode(sha256(script.encode()).digest()).decode()
        assert f"script-src 'sha256-{allowed}';" in policy


def test_pages_can_be_read_without_seeing_them(pages):
    for html in pages.values():
        tags = Tags(html)
        assert tags.all("html") == [{"lang": "en"}]
        assert len(tags.all("h1")) == len(tags.all("title")) == len(tags.all("main")) == 1
        assert all("alt" in image for image in tags.all("img"))
        assert all("scope" in cell for cell in tags.all("th"))
        targets = {attrs["id"] for _, attrs in tags.found if "id" in attrs}
        inner = {link["href"] for link in tags.all("a") if link["href"].startswith("#")}
        assert "#main" in inner
        assert {link[1:] for link in inner} <= targets
        identifiers = [attrs["id"] for _, attrs in tags.found if "id" in attrs]
        assert len(identifiers) == len(set(identifiers))


def test_figures_keep_their_alternative_text(pages):
    (image,) = Tags(pages["drawing.html"]).all("img")
    assert image["alt"] == 'Dots at 12.7, 15.9 and 19 mm, "rising".'


def test_words_of_a_survey_are_shown_and_never_taken_for_html(pages):
    assert "<script>alert(1)</script>" in Tags(pages["drawing.html"]).text
    assert "Of 3 invented 1912.10 buttons, 2 are <i>small</i>." in Tags(pages["index.html"]).text
    assert "Shelf <b>" in Tags(pages["index.html"]).text
    assert "<script>alert(1)</script>" in Tags(pages["problems.html"]).text


def test_formulas_in_a_survey_are_disarmed_in_its_tables(finished):
    buttons = pd.read_csv(finished / "buttons.csv")
    assert buttons["Shelf <b>"].tolist() == ["'=1+1", "'@x", "'-"]


def test_the_executed_notebook_runs_from_where_it_lies(finished):
    notebook = nbformat.read(finished / "notebooks" / "drawing.ipynb", 4)
    nbformat.validate(notebook)
    (given,) = (cell for cell in notebook.cells if "injected-parameters" in cell.metadata.tags)
    assert given.source.splitlines()[1:] == [
        'surveys = ["../survey"]',
        'outputs = ""',
        'garment = "1912.10"',
    ]


def test_no_file_names_the_folder_in_which_the_run_worked(finished):
    for name, content in files(finished).items():
        assert b".buttonstudy-" not in content, name


def test_the_record_tells_files_versions_parameters_and_time(finished, survey_file):
    record = json.loads((finished / "provenance.json").read_text())
    (source,) = record["surveys"]
    digest = subprocess.run(
        ["sha256sum", survey_file], capture_output=True, text=True, check=True
    ).stdout.split()[0]
    assert (source["file"], source["sha256"]) == ("invented.csv", digest)
    assert record["notebooks"][0]["parameters"] == {
        "surveys": ["./survey"],
        "outputs": ".",
        "garment": "1912.10",
    }
    assert record["versions"]["Python"] == sys.version.split()[0]
    assert record["begun"] <= record["ended"]
    assert record["finished"]
    check_replaceable(finished)


def test_what_the_new_report_lacks_of_the_earlier_one_is_told(
    finished, survey_file, notebooks, tmp_path, capsys
):
    place = tmp_path / "report"
    shutil.copytree(finished, place)
    progress = Progress(sys.stdout)
    other = [shutil.copy(notebooks / "drawing.ipynb", tmp_path / "plain.ipynb")]
    make_report([survey_file], place, notebooks=other, progress=progress)
    assert (
        "The earlier report in this folder also had drawing; the new one, which replaces it, "
        "does not.\n"
    ) in capsys.readouterr().out
    make_report([survey_file], place, notebooks=other, progress=progress)
    assert "The earlier report" not in capsys.readouterr().out


def test_a_failing_notebook_is_told_the_other_finishes_and_the_earlier_report_stays(
    finished, survey_file, notebooks
):
    before = files(finished)
    chosen = [str(notebooks / f"{name}.ipynb") for name in ("failing", "drawing")]
    result = make_report([survey_file], finished, notebooks=chosen)
    assert [str(failure) for failure in result.failures] == [
        "The notebook failing could not finish at its code cell 2 under “The colour of the "
        "thread”: something called 'linen' was looked up and is not there."
    ]
    assert files(finished) == before
    assert result.folder == finished.with_name("report-unfinished")
    assert (result.folder / "figures" / "drawing-diameters.pdf").is_file()
    assert "linen" in (result.folder / "notebooks" / "failing.ipynb").read_text()
    index = Tags((result.folder / "index.html").read_text()).text
    assert "This report is not finished." in index
    page = (result.folder / "failing.html").read_text()
    assert "could not finish" in page
    assert "Traceback" not in page


@pytest.mark.skipif(sys.platform == "win32", reason="signals of this kind are not sent there")
@pytest.mark.parametrize(("sent", "status"), [("SIGKILL", -9), ("SIGTERM", 130)])
def test_a_run_that_is_stopped_leaves_the_earlier_report_whole(
    finished, survey_file, notebooks, sent, status
):
    before = files(finished)
    call = [sys.executable, "-m", "buttonstudy", "report", survey_file, "--to", finished]
    waiting = notebooks / "waiting.ipynb"
    run = subprocess.Popen([*call, "--notebook", waiting], stdout=-3, stderr=-3)
    wait_for(lambda: list(finished.parent.glob(".report*/waiting.txt")))
    run.send_signal(getattr(signal, sent))
    assert run.wait(30) == status
    assert files(finished) == before
    if sent == "SIGKILL":  # the next run takes away what is left
        clear_leftovers(finished.parent)
    assert not list(finished.parent.glob(".report*"))


def wait_for(found, seconds=60):
    end = time.monotonic() + seconds
    while not found():
        assert time.monotonic() < end, "the run did not get as far as its first cell"
        time.sleep(0.05)


def test_what_cannot_work_is_refused_before_anything_runs(
    survey_file, notebooks, tmp_path, monkeypatch
):
    monkeypatch.setattr("buttonstudy.publish.report.run_notebooks", None)
    own = [str(notebooks / "drawing.ipynb")]
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "to Ada.txt").touch()
    with pytest.raises(CallError, match=r"parameter bands takes a whole number"):
        make_report([survey_file], tmp_path / "r", notebooks=own, parameters={"bands": "many"})
    with pytest.raises(CallError, match=r"Did you mean garment\?"):
        make_report([survey_file], tmp_path / "r", notebooks=own, parameters={"garmet": "x"})
    with pytest.raises(CallError, match=r"letters holds something else than a report"):
        make_report([survey_file], tmp_path / "letters", notebooks=own)
    with pytest.raises(ValueError, match=r"kings"):
        make_report([survey_file], tmp_path / "r", notebooks=own, choices=Choices(periods="kings"))
    with pytest.raises(CallError, match=r"missing.csv: there is no such file"):
        make_report([survey_file, tmp_path / "missing.csv"], tmp_path / "r", notebooks=own)
    assert [path.name for path in tmp_path.iterdir()] == ["letters"]


def test_a_module_beside_a_notebook_is_imported_only_as_the_failure_says(survey_file, tmp_path):
    (tmp_path / "drawers.py").write_text("NORTH = 3\n")
    for name, before in (
        ("plain", ""),
        ("told", f"import sys; sys.path.append({str(tmp_path)!r})"),
    ):
        cell = nbformat.v4.new_code_cell(f"{before}\nimport drawers\nprint(drawers.NORTH)")
        nbformat.write(nbformat.v4.new_notebook(cells=[cell]), tmp_path / f"{name}.ipynb")
    chosen = [str(tmp_path / f"{name}.ipynb") for name in ("plain", "told")]
    result = make_report([survey_file], tmp_path / "report", notebooks=chosen)
    (failure,) = result.failures
    assert failure.notebook == "plain"
    assert "its module drawers lies beside it, and notebooks import nothing" in failure.why
    assert failure.why.endswith("import sys; sys.path.append('the folder')")


def none_fails(jobs, *_, **__):
    return tuple(Ran(job, 0, None) for job in jobs)


def test_progress_is_told_in_lines(survey_file, notebooks, tmp_path, monkeypatch, capsys):
    monkeypatch.setattr("buttonstudy.publish.report.run_notebooks", none_fails)
    monkeypatch.setattr("buttonstudy.publish.report.tidy", lambda *a: None)
    own = [str(notebooks / "drawing.ipynb")]
    make_report([survey_file], tmp_path / "r", notebooks=own, progress=Progress(sys.stdout))
    told = capsys.readouterr().out.splitlines()
    assert told[0].startswith("Read 3 button records in 3 sets from 1 survey file. Problems: ")
    assert told[1] == "Running 1 notebook, 1 at a time"
    assert os.listdir(tmp_path) == ["r"]  # noqa: PTH208


def test_a_report_holds_the_tables_with_which_its_survey_was_read(
    survey_file, notebooks, tmp_path, monkeypatch
):
    monkeypatch.setattr("buttonstudy.publish.report.run_notebooks", none_fails)
    monkeypatch.setattr("buttonstudy.publish.report.tidy", lambda *a: None)
    maps = tmp_path / "maps"
    maps.mkdir()
    for name, heading in (("one", "Shelf <b>"), ("two", "Drawer")):
        (maps / f"{name}.csv").write_text(f"heading,field\n{heading},notes\n", encoding="utf-8")
    right, own = tmp_path / "own.csv", tmp_path / "terms" / "own.csv"  # of one name
    right.write_text("kind,button\nall,1\n", encoding="utf-8")
    own.parent.mkdir()
    own.write_text("field,term,definition\nthread,bog cotton,Invented.\n", encoding="utf-8")
    choices = Choices(mapping=str(maps), accepted=str(right), vocabulary=str(own))
    drawing = [str(notebooks / "drawing.ipynb")]
    report = make_report([survey_file], tmp_path / "r", notebooks=drawing, choices=choices).folder
    kept = {name: content for name, content in files(report).items() if "schemes" in name}
    assert kept == {
        "schemes/mapping/maps/one.csv": (maps / "one.csv").read_bytes(),
        "schemes/mapping/maps/two.csv": (maps / "two.csv").read_bytes(),
        "schemes/accepted/own.csv": right.read_bytes(),
        "schemes/vocabulary/own.csv": own.read_bytes(),
    }
