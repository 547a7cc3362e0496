import pytest

from buttonstudy.publish.markdown import Prose

TEXTS = [
    ("# Title\n\nWords.", "<p>Words.</p>\n"),
    ("<script>x</script>", "<p>&lt;script&gt;x&lt;/script&gt;</p>\n"),
    ("a <b>b</b>", "<p>a &lt;b&gt;b&lt;/b&gt;</p>\n"),
    ("![plan](https://example.org/x.png)", '<p><a href="https://example.org/x.png">plan</a></p>\n'),
]


@pytest.mark.parametrize(("text", "html"), TEXTS)
def test_prose_brings_no_html_and_no_pictures_of_others(text, html):
    assert Prose().html(text) == html


def test_links_that_run_code_are_disarmed():
    assert "javascript" not in Prose().html("[x](javascript:alert(1))")


def test_headings_have_names_of_their_own():
    prose = Prose()
    prose.html("## Sizes\n\n## Sizes\n\n### Ø & *lines*")
    assert [(one.level, one.words, one.anchor) for one in prose.headings] == [
        (2, "Sizes", "sizes"),
        (2, "Sizes", "sizes-2"),
        (3, "Ø & lines", "ø-lines"),
    ]
