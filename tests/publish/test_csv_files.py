import csv

import pandas as pd
import pytest

from buttonstudy.publish.csv_files import csv_text, write_csv

# The signs with which OWASP's page on CSV injection says that a formula can start.
STARTS = ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"]


@pytest.mark.parametrize("start", STARTS)
def test_text_that_could_be_a_formula_gets_an_apostrophe(start):
    text = csv_text(pd.DataFrame({"note": [f"{start}1+1"]}))
    assert list(csv.reader(text.splitlines(keepends=True)))[1][0].startswith("'")


def test_categories_and_headings_are_made_safe_too():
    frame = pd.DataFrame({"=heading": pd.Categorical(["@a", "b"]), 3: ["x", "y"]})
    assert csv_text(frame) == "'=heading,3\r\n'@a,x\r\nb,y\r\n"


def test_numbers_stay_numbers_and_missing_values_are_empty():
    frame = pd.DataFrame(
        {"a": [-1, -2], "b": pd.array([-1.5, None], dtype="Float64"), "c": [True, False]}
    )
    assert csv_text(frame) == "a,b,c\r\n-1,-1.5,True\r\n-2,,False\r\n"


def test_columns_of_the_same_name_are_all_kept():
    frame = pd.DataFrame([["=a", "b"]], columns=["x", "x"])
    assert csv_text(frame) == "x,x\r\n'=a,b\r\n"


def test_files_start_with_a_byte_order_mark_and_read_back(tmp_path):
    frame = pd.DataFrame({"term": ["Ø 16 mm", "a,b", 'say "so"']})
    write_csv(frame, tmp_path / "deep" / "terms.csv")
    content = (tmp_path / "deep" / "terms.csv").read_bytes()
    assert content.startswith(b"\xef\xbb\xbf")
    pd.testing.assert_frame_equal(pd.read_csv(tmp_path / "deep" / "terms.csv"), frame)
