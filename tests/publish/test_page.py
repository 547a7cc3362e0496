import pandas as pd
import pytest

from buttonstudy.publish.captions import caption_file, read_captions
from buttonstudy.publish.page import Page
from buttonstudy.publish.showing import Shown, ShownRecord, show


def test_a_figure_is_saved_three_ways_and_listed_with_its_words(tmp_path, drawn, shown):
    Page("sizes", tmp_path).figure(drawn("By period/1"))
    assert sorted(path.name for path in (tmp_path / "figures").iterdir()) == [
        "sizes-by-period-1.pdf",
        "sizes-by-period-1.png",
        "sizes-by-period-1.svg",
        "sizes-captions.csv",
    ]
    (caption,) = read_captions(caption_file(tmp_path, "sizes"))
    assert (caption.number, caption.name) == (1, "sizes-by-period-1")
    assert caption.caption == "Two <b>buttons</b> & more."


def test_a_figure_is_shown_with_alternative_text_and_an_escaped_caption(drawn, shown):
    Page("sizes").figure(drawn())
    figure, caption = shown
    assert figure.png.startswith(b"\x89PNG")
    assert figure.record["alt"] == 'A line, "rising".'
    assert "Figure 1. Two &lt;b&gt;buttons&lt;/b&gt; &amp; more." in caption.html


def test_figures_are_numbered_and_keep_their_number_when_drawn_again(drawn, shown):
    page = Page("sizes")
    for name in ("one", "two", "one"):
        page.figure(drawn(name))
    assert [thing.record["number"] for thing in shown[::2]] == [1, 2, 1]


def test_words_alone_become_a_note(shown, drawn):
    nothing = drawn(caption="There is no figure here: no button has a size.")
    nothing.figure = None
    Page("sizes").figure(nothing)
    assert [thing.text for thing in shown] == [
        "Note. There is no figure here: no button has a size."
    ]


@pytest.mark.parametrize("missing", ["caption", "alt_text"])
def test_a_figure_without_words_is_refused(drawn, missing):
    with pytest.raises(ValueError, match=r"needs a caption and an alternative text"):
        Page("sizes").figure(drawn(**{missing: " "}))


def test_nothing_is_saved_without_a_folder(tmp_path, monkeypatch, drawn, shown):
    monkeypatch.chdir(tmp_path)
    page = Page("sizes")
    page.figure(drawn())
    page.table(pd.DataFrame({"a": [1]}), "t", "T")
    assert list(tmp_path.iterdir()) == []


def test_a_table_may_be_shown_in_another_form_than_it_is_saved(tmp_path, shown):
    whole = pd.DataFrame({"term": ["wood", "bone"], "sets": [3, 4]})
    Page("sizes", tmp_path).table(whole, "t", "T", shown=pd.DataFrame({"wood": ["3 of 7"]}))
    (told,) = shown
    assert "3 of 7" in told.html
    assert "bone" not in told.html
    saved = (tmp_path / "tables" / "sizes-t.csv").read_text(encoding="utf-8-sig")
    assert saved.split() == ["term,sets", "wood,3", "bone,4"]


@pytest.mark.parametrize("shown_as", [None, pd.DataFrame({"a": []})])
def test_a_table_without_rows_is_not_shown_and_takes_no_number(tmp_path, shown, shown_as):
    page = Page("sizes", tmp_path)
    page.table(
        pd.DataFrame({"a": [1] if shown_as is not None else []}), "none", "N", shown=shown_as
    )
    page.table(pd.DataFrame({"a": [1]}), "one", "O")
    (table,) = shown
    assert table.record["number"] == 1
    assert [path.name for path in (tmp_path / "tables").iterdir()] == ["sizes-one.csv"]


def test_a_long_table_is_shown_short_and_saved_whole(tmp_path, shown):
    frame = pd.DataFrame({"n": range(50)})
    Page("sizes", tmp_path).table(frame, "counts", "Counts", longest=20)
    (table,) = shown
    assert table.html.count("<tr>") == 21
    assert "The first 20 of 50 rows are shown." in table.html
    assert len(pd.read_csv(tmp_path / "tables" / "sizes-counts.csv")) == 50


def test_sentences_notes_and_cautions_are_escaped(shown):
    page = Page("sizes")
    page.say("Of <b>3</b> sets,", "2 are small.", announce=1)
    page.note("<i>Few</i>.")
    page.caution("Lead & mercury.", "Blades.")
    said, note, caution = (thing.html for thing in shown)
    assert shown[0].record["announced"] == "Of <b>3</b> sets,"
    assert said == '<p class="say">Of &lt;b&gt;3&lt;/b&gt; sets, 2 are small.</p>'
    assert "<strong>Note.</strong> &lt;i&gt;Few&lt;/i&gt;." in note
    assert "<p><strong>Caution.</strong> Lead &amp; mercury.</p><p>Blades.</p>" in caution


def test_a_number_stays_with_its_unit_on_screen_and_is_plain_elsewhere(shown):
    Page("sizes").say("Of 16 mm: 40 %, and 3 mmx.")
    (said,) = shown
    assert "Of 16\N{NO-BREAK SPACE}mm: 40\N{NO-BREAK SPACE}%, and 3 mmx." in said.html
    assert said.record["sentences"] == ["Of 16 mm: 40 %, and 3 mmx."]


def test_what_is_shown_in_a_notebook_carries_its_record(monkeypatch, drawn):
    published = {}

    class Shell:
        class display_pub:  # noqa: N801
            publish = staticmethod(published.update)

    monkeypatch.setattr("IPython.get_ipython", lambda: Shell)
    show(Shown("alt", ShownRecord(kind="figure", alt="A line"), png=b"\x89PNG", size=(8, 4)))
    assert published["metadata"]["image/png"] == {"alt": "A line", "width": 8, "height": 4}
    assert published["metadata"]["buttonstudy"]["kind"] == "figure"
    assert set(published["data"]) == {"text/plain", "image/png"}
