"""Checks that a survey is read back only where reading its files again would give the same."""

import json

import pandas as pd
import pytest

from buttonstudy.publish import read_back as reading
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.provenance import write_record
from buttonstudy.publish.read_back import SAVED_SURVEY, read_back, understood_from
from buttonstudy.publish.saving import save_survey
from buttonstudy.survey.load import load_survey

SURVEY = "Button no.,Across,Cover material,Photos\n1,16,linen,one.jpg\n2,15.9,silk,\n"
MAPPING = "heading,field,unit\nAcross,diameter,mm\n"


class Study:
    """A survey, a mapping file, and the last report's record with the survey as understood."""

    def __init__(self, folder):
        self.file, self.mapping = folder / "invented.csv", folder / "mapping.csv"
        self.photograph, self.place = folder / "one.jpg", folder / "report"
        self.choices = Choices(mapping=str(self.mapping))

    def read(self, choices=None):
        return read_back(self.place, [self.file], choices or self.choices)


@pytest.fixture
def study(tmp_path):
    study = Study(tmp_path)
    study.file.write_text(SURVEY)
    study.mapping.write_text(MAPPING)
    study.photograph.write_bytes(b"a picture")
    survey = load_survey(study.file, mapping=study.mapping)
    save_survey(survey, study.place / SAVED_SURVEY)
    told = understood_from(survey, [study.file], study.choices)
    write_record(study.place, {"finished": True, "understood_from": told})
    return study


def test_an_unchanged_survey_is_the_one_that_was_understood(study):
    back, anew = study.read(), load_survey(study.file, mapping=study.mapping)
    for table in ("buttons", "problems", "columns", "sources"):
        pd.testing.assert_frame_equal(getattr(back, table), getattr(anew, table))
    assert back.settings == anew.settings


def spoil_record(study):
    record = json.loads((study.place / "provenance.json").read_text())
    record["understood_from"] = "all of it"
    (study.place / "provenance.json").write_text(json.dumps(record))


CHANGES = {
    "a survey file": lambda study: study.file.write_text(SURVEY + "3,12,wool,\n"),
    "its name": lambda study: setattr(
        study, "file", study.file.rename(study.file.with_name("b.csv"))
    ),
    "the mapping": lambda study: study.mapping.write_text(MAPPING + "Shelf,notes,\n"),
    "a photograph that went": lambda study: study.photograph.unlink(),
    "another photograph": lambda study: study.photograph.write_bytes(b"another picture"),
    "a part of what was saved": lambda study: (
        study.place / SAVED_SURVEY / "buttons.parquet"
    ).write_bytes(b"half"),
    "a part that went": lambda study: (study.place / SAVED_SURVEY / "survey.json").unlink(),
    "the record": spoil_record,
    "no record": lambda study: (study.place / "provenance.json").unlink(),
}


def test_a_photograph_that_lies_twice_is_not_taken_for_one_that_is_missing(study):
    study.photograph.unlink()
    survey = load_survey(study.file, mapping=study.mapping)
    told = understood_from(survey, [study.file], study.choices)
    save_survey(survey, study.place / SAVED_SURVEY)
    write_record(study.place, {"finished": True, "understood_from": told})
    assert study.read() is not None
    for folder in ("left", "right"):
        (study.file.parent / folder).mkdir()
        (study.file.parent / folder / "one.jpg").write_bytes(b"a picture")
    assert study.read() is None


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_whatever_has_changed_is_read_from_the_survey_files(study, change):
    assert study.read() is not None
    change(study)
    assert study.read() is None


def test_what_is_chosen_otherwise_is_read_from_the_survey_files(study):
    assert study.read(Choices(mapping=str(study.mapping), dates="carnegie")) is None


@pytest.mark.parametrize("part", ["kit_fingerprint", "versions"])
def test_another_kit_reads_the_survey_files(study, monkeypatch, part):
    monkeypatch.setattr(reading, part, lambda: "another")
    assert study.read() is None


def test_another_year_reads_the_survey_files(study, monkeypatch):
    later = type("Later", (), {"now": staticmethod(lambda zone: type("D", (), {"year": 9999}))})
    monkeypatch.setattr(reading, "datetime", later)
    assert study.read() is None
