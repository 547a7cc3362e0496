from html.parser import HTMLParser

import pandas as pd
import pytest

from buttonstudy.publish.table_html import column_texts, heading_text, table_html

HEADINGS = [
    ("n", "N"),
    ("examined_sets", "Examined sets"),
    ("diameter_mm_low", "Diameter low (mm)"),
    ("diameter_lines", "Diameter (lines)"),
    (("share", "low"), "Share low"),
    (1840, "1840"),
]
TEXTS = [
    (pd.Series([0.4321, 0.05]), ["0.432", "0.050"]),
    (pd.Series([15.875, 3.0]), ["15.88", "3.00"]),
    (pd.Series([0.5, 0.25]), ["0.50", "0.25"]),
    (pd.Series([2.0, 3.0]), ["2", "3"]),
    (pd.Series([1860, 1], dtype="Int64"), ["1860", "1"]),
    (pd.Series([None, "a"], dtype="str"), ["–", "a"]),
    (pd.Series([None, 1.5], dtype="Float64"), ["–", "1.5"]),
    (pd.Series(pd.Categorical(["x", None])), ["x", "–"]),
]


@pytest.mark.parametrize(("name", "words"), HEADINGS)
def test_headings_are_made_from_names(name, words):
    assert heading_text(name) == words


@pytest.mark.parametrize(("column", "texts"), TEXTS)
def test_cells_read_well(column, texts):
    assert column_texts(column) == texts


def test_all_words_are_escaped():
    frame = pd.DataFrame({'"><script>': ["<img src=x onerror=y>"]})
    html = table_html(frame, "<b>Title</b>")
    seen = []
    parser = HTMLParser()
    parser.handle_starttag = lambda tag, attrs: seen.append(tag)
    parser.feed(html)
    assert set(seen) == {"div", "table", "caption", "thead", "tbody", "tr", "th", "td"} - {"td"}


def test_headings_and_row_names_are_tied_to_their_cells():
    html = table_html(pd.DataFrame({"cover": ["linen"], "sets": [3]}), "Covers")
    assert html.count('scope="col"') == 2
    assert '<th scope="row" style="text-align: left">linen</th>' in html
    assert '<td style="text-align: right">3</td>' in html


def test_row_labels_that_say_something_are_shown():
    frame = pd.DataFrame({"sets": [1, 2]}, index=pd.Index(["wood", "bone"], name="mould"))
    html = table_html(frame, "Moulds")
    assert ">Mould<" in html
    assert ">bone<" in html
    filtered = pd.DataFrame({"sets": [1, 2]}).iloc[1:]
    assert "Index" not in table_html(filtered, "Some")


def test_given_headings_win():
    html = table_html(pd.DataFrame({"n": [1]}), "T", headings={"n": "Sets examined"})
    assert ">Sets examined<" in html
