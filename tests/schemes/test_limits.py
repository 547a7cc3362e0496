"""The thresholds: every one has a number, a meaning and a source."""

import pytest

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
