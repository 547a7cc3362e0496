import json

import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.provenance import RECORD_FILE, check_replaceable, versions, write_record


@pytest.fixture
def report(tmp_path):
    place = tmp_path / "report"
    (place / "figures").mkdir(parents=True)
    (place / "index.html").write_text("index")
    (place / "figures" / "a.png").write_bytes(b"png")
    write_record(place, {"begun": "today"})
    return place


def test_the_record_lists_every_file_with_its_hash(report):
    record = json.loads((report / RECORD_FILE).read_text())
    assert set(record["files"]) == {"index.html", "figures/a.png"}
    # SHA-256 of "index", by sha256sum of GNU coreutils
    assert record["files"]["index.html"] == (
        "1bc04b5291c26a46d918139138b992d2de976d6851d0893b0476b85bfbdfc6e6"
    )


def test_an_untouched_report_may_be_replaced(report):
    (report / ".DS_Store").touch()
    (report / "notebooks" / ".ipynb_checkpoints").mkdir(parents=True)
    (report / "notebooks" / ".ipynb_checkpoints" / "a.ipynb").touch()
    check_replaceable(report)


@pytest.mark.parametrize("name", ["index.html", "my notes.txt", "figures/b.png"])
def test_work_of_others_in_a_report_is_never_replaced(report, name):
    (report / name).write_text("mine")
    with pytest.raises(CallError, match=f"work that is not the kit's: {name}"):
        check_replaceable(report)


def test_other_places_are_left_alone(tmp_path, monkeypatch):
    folder = tmp_path / "letters"
    folder.mkdir()
    check_replaceable(folder)
    check_replaceable(tmp_path / "new")
    (folder / "to Ada.txt").touch()
    with pytest.raises(CallError, match=r"holds something else than a report of the kit"):
        check_replaceable(folder)
    with pytest.raises(CallError, match=r"to Ada.txt is a file"):
        check_replaceable(folder / "to Ada.txt")
    monkeypatch.chdir(folder)
    with pytest.raises(CallError, match=r"is the folder that you are in"):
        check_replaceable(tmp_path)


def test_versions_name_the_kit_python_and_what_computes():
    assert {"buttonstudy", "Python", "numpy", "pandas", "matplotlib"} <= set(versions())
