from pathlib import PurePosixPath, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.publish.names import safe_name

NAMES = [
    ("Sizes by period", "sizes-by-period"),
    ("1912/10", "1912-10"),
    ("../../etc/passwd", "etc-passwd"),
    ("C:\\buttons\\a", "c-buttons-a"),
    ("Knöpfe aus Straß", "knöpfe-aus-strass"),
    ("пуговица 7", "пуговица-7"),
    ("CON", "con-"),
    ("   ", "unnamed"),
    ("x" * 500, "x" * 80),
    ("a\x00b\nc", "a-b-c"),
]


@pytest.mark.parametrize(("words", "name"), NAMES)
def test_words_become_plain_file_names(words, name):
    assert safe_name(words) == name


@given(st.text())
def test_no_words_lead_out_of_the_folder(words):
    name = safe_name(words)
    for kind in (PurePosixPath, PureWindowsPath):
        assert len(kind(name).parts) == 1
    assert name not in ("", ".", "..")
    assert len(f"{name}.svg".encode()) < 256
    assert not name.startswith(("-", "."))
