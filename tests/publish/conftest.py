"""Invented surveys and tiny notebooks for the tests of publishing."""

from pathlib import Path
from types import SimpleNamespace

import pandas as pd
import pytest
from matplotlib.figure import Figure

NOTEBOOKS = Path(__file__).parent / "notebooks"
PROBLEMS = ["file", "sheet", "row", "column", "wording", "problem", "what_to_do", "kind", "level"]
LEVELS = ["not read", "to confirm", "for information"]
UNREAD = ("This size has no unit.", "Write the unit in the heading.", "size-no-unit", "not read")


@pytest.fixture(scope="session")
def notebooks() -> Path:
    return NOTEBOOKS


@pytest.fixture
def survey():
    """An invented survey of four buttons whose words try to be HTML, formulas and commands."""
    from buttonstudy.survey.load import Survey

    buttons = pd.DataFrame(
        {
            "button_id": ["1", "2", "3", "4"],
            "set_id": pd.array(["s", "s", None, None], dtype="str"),
            "recorder": ["Ada Tarn", "Ada Tarn", "J. Vell", None],
            "file": "a.csv",
            "sheet": "",
            "row": pd.array([2, 3, 4, 5], dtype="Int64"),
            "diameter_mm": pd.array([15.9, None, 16.0, 12.7], dtype="Float64"),
            "sizes_agree": pd.array([True, None, False, None], dtype="boolean"),
            "cover_material": pd.Categorical(["linen", None, "<b>silk</b>", "linen; silk"]),
            "size_class": pd.Categorical(
                ["small", None, "small", "small"], ["tiny", "small", "large"], ordered=True
            ),
            "padding": pd.Categorical([None] * 4, categories=pd.Index([], dtype="str")),
            "=shelf": ["=1+1", "@x", "-2", "plain"],
        }
    )
    problems = pd.DataFrame(
        [
            ("a.csv", "", 7, "C (Size)", "26", *UNREAD),
            ("a.csv", "", 5, "C (Size)", "26", *UNREAD),
            ("a.csv", "", 6, "C (Size)", "<b>big</b>", *UNREAD),
            (
                "a.csv",
                "",
                None,
                "D (Shelf)",
                "Shelf",
                "Not known.",
                "Nothing.",
                "heading",
                LEVELS[2],
            ),
            ("a.csv", "", 9, "E (Date)", "1800s", "A century?", "Look.", "hundreds", LEVELS[1]),
        ],
        columns=PROBLEMS,
    ).astype({"row": "Int64", "level": pd.CategoricalDtype(LEVELS, ordered=True)})
    columns = pd.DataFrame(
        [
            ("a.csv", "", "A", "No.", "button_id", "", "heading", 4),
            ("a.csv", "", "C", "Size (mm)", "diameter", "mm", "heading", 3),
            ("a.csv", "", "B", "Matrial", "cover_material", "", "near spelling", 3),
            ("a.csv", "", "D", "<i>Shelf</i>", "", "", "not known", 4),
        ],
        columns=["file", "sheet", "column", "heading", "field", "unit", "how", "filled"],
    )
    sources = pd.DataFrame(
        [("a.csv", "ab" * 32, 99, "text, UTF-8, comma", 1, 4, "")],
        columns=["file", "sha256", "bytes", "form", "sheets", "records", "survey_name"],
    )
    settings = {"date_convention": "buttonstudy", "size_classes": "us-society"}
    return Survey(buttons, problems, columns, sources, settings)


@pytest.fixture
def drawn():
    """Make a figure with words that need care."""

    def make(name="sizes", **words):
        figure = Figure(figsize=(2, 1))
        figure.subplots().plot([1, 2])
        told = {"caption": "Two <b>buttons</b> & more.", "alt_text": 'A line, "rising".'} | words
        return SimpleNamespace(figure=figure, name=name, **told)

    return make


@pytest.fixture
def shown(monkeypatch):
    """Collect what a page shows."""
    from buttonstudy.publish import page

    things = []
    monkeypatch.setattr(page, "show", things.append)
    return things
