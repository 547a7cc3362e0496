"""Checks that results are taken over only where they would come out the same."""

import json
import shutil
from io import StringIO
from pathlib import Path

import pytest

from buttonstudy.publish import reuse
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.failures import Failure
from buttonstudy.publish.progress import Progress
from buttonstudy.publish.report import make_report
from buttonstudy.publish.reuse import last_report
from buttonstudy.publish.running import Ran

SURVEY = "Button no.,Across,Cover material\n1,16,linen\n2,15.9,silk\n"
MAPPING = "heading,field,unit\nAcross,diameter,mm\n"


class Study:
    """A survey, a mapping file and a kit of one notebook, with what was made of them."""

    def __init__(self, folder):
        self.folder = folder
        self.survey, self.mapping = folder / "invented.csv", folder / "mapping.csv"
        self.kit, self.place = folder / "kit", folder / "report"
        self.notebook = self.kit / "drawing.ipynb"

    def make(self, *, reuse=True, **more):
        told = StringIO()
        result = make_report(
            [self.survey],
            self.place,
            **{"notebooks": ["drawing"], "notebooks_in": self.kit} | more,
            choices=Choices(mapping=self.mapping.name),
            reuse=reuse,
            progress=Progress(told),
        )
        return result, told.getvalue()

    def record(self):
        return json.loads((self.place / "provenance.json").read_text())

    def change_record(self, change):
        record = self.record()
        change(record)
        (self.place / "provenance.json").write_text(json.dumps(record))


@pytest.fixture(scope="module")
def made_once(notebooks, tmp_path_factory):
    study = Study(tmp_path_factory.mktemp("once"))
    study.kit.mkdir()
    shutil.copy(notebooks / "drawing.ipynb", study.notebook)
    study.survey.write_text(SURVEY)
    study.mapping.write_text(MAPPING)
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(study.folder)
        assert study.make(reuse=False)[0].finished
    return study


@pytest.fixture
def study(made_once, tmp_path, monkeypatch):
    """Copy what was made, and let a notebook that is run again fail at once."""
    shutil.copytree(made_once.folder, tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(
        "buttonstudy.publish.report.run_notebooks",
        lambda jobs, *_, **__: tuple(Ran(job, 0, Failure("drawing", "", "")) for job in jobs),
    )
    return Study(tmp_path)


def results(study):
    return {
        path.relative_to(study.place).as_posix(): path.read_bytes()
        for name in ("figures", "tables", "notebooks")
        for path in (study.place / name).iterdir()
    }


def test_what_is_set_is_known_again_whatever_letters_the_folder_has(survey, notebooks):
    notebook = type("Notebook", (), {"path": notebooks / "drawing.ipynb"})
    folders = (Path("Möbel") / name for name in (".a.new", ".b.new"))
    one, other = (
        reuse.made_from(notebook, {"outputs": folder.as_posix()}, folder, survey, ())["set"]
        for folder in folders
    )
    assert one == other


def test_what_would_come_out_the_same_is_taken_over(study):
    before, seconds = results(study), study.record()["notebooks"][0]["seconds"]
    result, told = study.make()
    assert result.finished
    assert "drawing: taken over from the last report" in told
    assert "Took over from the last report 2 button records" in told
    assert results(study) == before
    (notebook,) = study.record()["notebooks"]
    assert (notebook["taken_over"], notebook["seconds"]) == (True, seconds)
    assert "taken over" in study.make()[1]  # and once more from what was taken over


def test_nothing_is_taken_over_unless_it_is_asked_for(study):
    assert not study.make(reuse=False)[0].finished


def append(path, text):
    path.write_text(path.read_text() + text)


def add_stray(study):
    (study.place / "tables" / "stray.csv").write_text("")
    empty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"  # FIPS 180-4
    study.change_record(lambda record: record["files"].update({"tables/stray.csv": empty}))


CHANGES = [
    (lambda study: append(study.survey, "3,12,linen\n"), "a survey file has changed"),
    (lambda study: append(study.mapping, "Shelf,notes,\n"), "a table of your own has changed"),
    (lambda study: append(study.notebook, "\n"), "the notebook has changed"),
    (
        lambda study: (study.place / "figures" / "drawing-diameters.pdf").unlink(),
        "files of it are missing or changed in the last report",
    ),
    (
        lambda study: (study.place / "figures" / "drawing-captions.csv").unlink(),
        "files of it are missing or changed in the last report",
    ),
    (add_stray, "the last report has files of unknown origin"),
    (
        lambda study: study.change_record(lambda record: record["notebooks"].clear()),
        "the last report does not have it",
    ),
    (
        lambda study: study.change_record(lambda record: record["notebooks"][0].pop("made_from")),
        "the last report does not have it",
    ),
]


@pytest.mark.parametrize(("change", "why"), CHANGES)
def test_what_has_changed_is_run_again(study, change, why):
    change(study)
    result, told = study.make()
    assert f"drawing: is run again, since {why}" in told
    assert not result.finished


MALFORMED = [
    lambda record: record.update(notebooks="drawing"),
    lambda record: record.update(notebooks=["drawing"]),
    lambda record: record.pop("notebooks"),
    lambda record: record["notebooks"][0].pop("name"),
    lambda record: record["notebooks"][0].update(seconds="quick"),
    lambda record: record["notebooks"][0].update(seconds=10**400),
    lambda record: record["notebooks"][0].update(made_from=["all"]),
    lambda record: record["notebooks"][0].update(files="figures"),
    lambda record: record["notebooks"][0]["files"].append(1),
    *(
        lambda record, name=name: record["notebooks"][0]["files"].append(name)
        for name in ("", "/etc/motd", "figures/../../a.txt", "C:a.txt", "..\\a.txt")
    ),
]


@pytest.mark.parametrize("spoil", MALFORMED)
def test_a_record_that_is_not_in_order_is_that_of_no_report(study, spoil):
    assert last_report(study.place) is not None
    study.change_record(spoil)
    assert last_report(study.place) is None


def test_a_record_without_an_end_is_none(study):
    (study.place / "provenance.json").write_text("[" * 100_000)
    assert last_report(study.place) is None


def test_a_name_that_can_be_no_files_is_that_of_a_changed_one(study):
    study.change_record(lambda record: record["notebooks"][0]["files"].append("a\0b"))
    assert "files of it are missing or changed in the last report" in study.make()[1]


def test_what_is_set_otherwise_is_run_again(study):
    _, told = study.make(parameters={"garment": "1913.2"})
    assert "drawing: is run again, since something else was set" in told


def test_a_notebook_of_ones_own_is_run_again(study):
    elsewhere = study.folder / "drawing.ipynb"
    shutil.copy(study.notebook, elsewhere)
    _, told = study.make(notebooks=[str(elsewhere)])
    assert "since a notebook of your own may read more than is known here" in told


@pytest.mark.parametrize(
    ("part", "why"),
    [("kit_fingerprint", "the kit has changed"), ("versions", "a library has changed")],
)
def test_other_code_runs_everything_again(study, monkeypatch, part, why):
    monkeypatch.setattr(reuse, part, lambda: "another")
    assert f"since {why}" in study.make()[1]


def test_another_photograph_makes_another_result(study, survey, tmp_path):
    notebook = type("Notebook", (), {"path": study.notebook})
    hashes = []
    for content in ("one", "another"):
        (tmp_path / "photographs").mkdir(exist_ok=True)
        (tmp_path / "photographs" / "1.jpg").write_text(content)
        hashes.append(reuse.made_from(notebook, {}, tmp_path, survey, ()))
    assert {name for name in hashes[0] if hashes[0][name] != hashes[1][name]} == {"photographs"}


@pytest.mark.parametrize("lacks", ["finished", "everything"])
def test_without_a_finished_report_everything_is_run(study, lacks):
    if lacks == "finished":
        study.change_record(lambda record: record.update(finished=False))
    else:
        shutil.rmtree(study.place)
    assert "There is no last report in this folder" in study.make()[1]


def test_what_took_longest_runs_first_and_what_was_never_run_before_it(study, monkeypatch):
    for name in ("quick", "slow", "new"):
        shutil.copy(study.notebook, study.kit / f"{name}.ipynb")
    timed = [{"name": "quick", "seconds": 1.0}, {"name": "slow", "seconds": 9.0}]
    study.change_record(lambda record: record["notebooks"].extend(timed))
    order = []

    def run(jobs, *_, **__):
        order.extend(job.notebook.name for job in jobs)
        return tuple(Ran(job, 0, Failure(job.notebook.name, "", "")) for job in jobs)

    monkeypatch.setattr("buttonstudy.publish.report.run_notebooks", run)
    study.make(reuse=False, notebooks=["quick", "slow", "new"])
    assert order == ["new", "slow", "quick"]
