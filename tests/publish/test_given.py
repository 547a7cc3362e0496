"""Checks which files of a researcher's own a report takes up."""

from pathlib import Path

import pytest

from buttonstudy.publish.choices import Choices
from buttonstudy.publish.given import own_files, report_values


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    """Work in a folder with own tables, and files that have the names of schemes and words."""
    monkeypatch.chdir(tmp_path)
    for name in ("maps/one.csv", "photos/1.jpg", "own/a.csv", "linen/private.csv", "bands/b.csv"):
        Path(name).parent.mkdir(exist_ok=True)
        Path(name).write_text("a,b\n1,2\n")
    for name in ("own.csv", "decades", "five-mm", "quarters", "1912"):
        Path(name).write_text("a,b\n1,2\n")


CHOSEN = [
    (Choices(vocabulary="own.csv", mapping="maps"), {}, ["own.csv", "maps/one.csv"]),
    (Choices(accepted="own.csv"), {"period_scheme": "own.csv"}, ["own.csv", "own.csv"]),
    (Choices(dates="quarters", size_classes="five-mm", periods="decades"), {}, []),
    (Choices(), {"period_scheme": "decades", "date_convention": "quarters"}, []),
    (Choices(), {"button": "1912", "title": "own.csv", "compare": "linen"}, []),
    (Choices(dates="bands", accepted="own", vocabulary="own"), {"size_classes": "bands"}, []),
    (Choices(), {"photographs": "photos", "title": "photos"}, ["photos/1.jpg"]),
    (Choices(vocabulary="x" * 300), {"mapping": "x" * 300, "photographs": "x" * 300}, []),
    (Choices(vocabulary="a\0b"), {"mapping": "a\0b", "photographs": "a\0b"}, []),
]


@pytest.mark.parametrize(("choices", "parameters", "files"), CHOSEN)
def test_only_what_names_a_table_or_photographs_is_looked_at(choices, parameters, files):
    assert own_files(choices, parameters) == [Path(name) for name in files]


def test_notebooks_are_told_of_the_copies(survey):
    choices = Choices(dates="quarters", vocabulary="own.csv", mapping="maps")
    values = report_values(choices, survey, Path("report"))
    assert values == {
        "surveys": ["report/survey"],
        "outputs": "report",
        "photographs": "report/photographs",
        "date_convention": "quarters",
        "size_classes": "us-society",
        "vocabulary": "report/schemes/vocabulary/own.csv",
        "mapping": "report/schemes/mapping/maps",
    }
    copied = [path.as_posix() for path in Path("report").rglob("*.csv")]
    assert sorted(copied) == [
        "report/schemes/mapping/maps/one.csv",
        "report/schemes/vocabulary/own.csv",
    ]
