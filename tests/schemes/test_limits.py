"""The thresholds: every one has a number, a meaning and a source."""

import ast
from pathlib import Path

import pytest

import buttonstudy
from buttonstudy.schemes import SchemeError, limit, rows


def test_every_limit_is_a_number_with_a_meaning_and_a_source() -> None:
    names = [row["name"] for row in rows("limits")]
    assert len(names) == len(set(names))
    for row in rows("limits"):
        assert limit(row["name"]) == float(row["value"])
        assert row["unit"]
        assert row["meaning"].endswith(".")
        assert row["source"]


def test_an_unknown_limit_is_named_with_the_known_ones() -> None:
    with pytest.raises(SchemeError, match='There is no limit called "few-buttons"'):
        limit("few-buttons")


# Of a buffer, of arithmetic, or of a notation: none decides what a user is told.
TECHNICAL = {
    "FORM": "the number of a form of saved files",
    "_BLOCK": "bytes read at once",
    "_DEEPEST": "of styles that lead in a circle",
    "_HALF_MM": "the step of a notation",
    "_LONGEST": "longer than any number format that programs write",
    "_LONGEST_ERROR": "longer than any error that programs show",
    "_MOST_DECIMALS": "as many as programs show",
    "_ROUNDING": "of arithmetic",
    "_ROWS_AT_ONCE": "rows coded at once",
    "_TOUCHING": "of arithmetic",
}


def test_thresholds_of_reading_stand_in_the_table_and_not_in_the_code() -> None:
    found = {
        target.id
        for path in (Path(buttonstudy.__file__).parent / "survey").rglob("*.py")
        for one in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(one, ast.Assign) and isinstance(one.value, ast.Constant)
        if isinstance(one.value.value, int | float)
        for target in one.targets
        if isinstance(target, ast.Name)
    }
    assert found == set(TECHNICAL)
