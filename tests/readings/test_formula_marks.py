"""Text made harmless for spreadsheet programs comes back as it was."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from buttonstudy.readings.formula_marks import harmless, restored

# The signs are those that OWASP's page "CSV Injection" lists (from memory), and the wide ones.
RUN = ["=1+1", "+4", "-2", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1", "＋1", "－1", "＠x"]
LEFT_ALONE = ["horn", "5/8 in", "'tis", "''", "", " =1", "a=b"]


@pytest.mark.parametrize("text", RUN)
def test_text_that_would_be_run_gets_one_apostrophe(text):
    assert harmless(text) == f"'{text}"
    assert harmless(harmless(text)) == f"''{text}"


@pytest.mark.parametrize("text", LEFT_ALONE)
def test_other_text_is_left_alone(text):
    assert harmless(text) == text
    assert restored(text) == text


@given(st.text(alphabet="'=+-@\t\r\nab＝"))
@example("''=")
def test_what_comes_back_is_what_was_there(text):
    assert restored(harmless(text)) == text
    assert not harmless(text).startswith(tuple("=+-@\t\r\n＝＋－＠"))
