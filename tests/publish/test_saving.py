import datetime as dt
import json

import numpy as np
import pandas as pd
import pytest

from buttonstudy.publish.saving import save_survey
from buttonstudy.survey.saved import (
    LEAF,
    TABLES,
    SavedSurveyError,
    is_saved_survey,
    read_saved_survey,
)

KINDS = {
    "words": pd.array(["a", None, ""], dtype="str"),
    "years": pd.array([1840, None, 1], dtype="Int64"),
    "sizes": pd.array([15.9, None, 0.1], dtype="Float64"),
    "answers": pd.array([True, None, False], dtype="boolean"),
    "plain": np.array([1.5, np.nan, 2]),
    "terms": pd.Categorical(["b", None, "a"]),
    "ordered": pd.Categorical(["x", None, "y"], ["y", "x", "z"], ordered=True),
    "never": pd.Categorical([None] * 3, categories=pd.Index([], dtype="str")),
    "never said": pd.Categorical([None] * 3, categories=pd.Index([], dtype=object)),
    "counts": pd.Categorical([2, None, 1]),
    "mixed": pd.Series([1, "1", None], dtype=object),
    "days": pd.Series([dt.date(1840, 5, 1), dt.datetime(1900, 1, 2, 3), 2.5], dtype=object),
    "truth": pd.Series([True, dt.time(5, 8), dt.timedelta(hours=3)], dtype=object),
}


def test_every_kind_of_column_comes_back_as_it_was(survey, tmp_path):
    import dataclasses

    frame = pd.DataFrame(KINDS)
    for whole in (frame, frame.iloc[:0], frame.iloc[1:2].reset_index(drop=True)):
        save_survey(dataclasses.replace(survey, buttons=whole), tmp_path)
        pd.testing.assert_frame_equal(read_saved_survey(tmp_path).buttons, whole)


def test_a_whole_survey_comes_back(survey, tmp_path):
    save_survey(survey, tmp_path / "deep" / "saved")
    back = read_saved_survey(tmp_path / "deep" / "saved")
    for name in TABLES:
        pd.testing.assert_frame_equal(getattr(back, name), getattr(survey, name))
    assert back.settings == survey.settings


def test_headings_that_stand_twice_are_kept(survey, tmp_path):
    import dataclasses

    twice = pd.DataFrame([["a", "b"]], columns=["x", "x"])
    save_survey(dataclasses.replace(survey, buttons=twice), tmp_path)
    pd.testing.assert_frame_equal(read_saved_survey(tmp_path).buttons, twice)


def test_only_a_saved_survey_is_taken_for_one(survey, tmp_path):
    save_survey(survey, tmp_path / "saved")
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / LEAF).write_text("[1]")
    assert is_saved_survey(tmp_path / "saved")
    assert is_saved_survey(str(tmp_path / "saved"))
    assert not is_saved_survey(tmp_path / "other")
    assert not is_saved_survey(tmp_path / "missing")
    with pytest.raises(SavedSurveyError, match=r"other is not a saved survey"):
        read_saved_survey(tmp_path / "other")


def test_a_damaged_one_is_told(survey, tmp_path):
    save_survey(survey, tmp_path)
    (tmp_path / "buttons.parquet").write_bytes(b"PAR1")
    with pytest.raises(SavedSurveyError, match=r"is damaged. Load the survey files themselves"):
        read_saved_survey(tmp_path)


def test_one_of_another_form_is_told(survey, tmp_path):
    save_survey(survey, tmp_path)
    leaf = json.loads((tmp_path / LEAF).read_text()) | {"form": 99, "kit": "9.0"}
    (tmp_path / LEAF).write_text(json.dumps(leaf))
    with pytest.raises(SavedSurveyError, match=r"another version of the kit \(9.0\)"):
        read_saved_survey(tmp_path)
