from types import SimpleNamespace

from buttonstudy.publish.report_pages import _leads


def test_each_page_is_announced_by_a_sentence_of_its_own():
    bodies = [
        SimpleNamespace(leads=("The survey holds 3 sets.", "Of 3 sets, 2 are small.")),
        SimpleNamespace(leads=("The survey holds 3 sets.",)),
        SimpleNamespace(leads=()),
    ]
    assert _leads(bodies) == ["Of 3 sets, 2 are small.", "The survey holds 3 sets.", ""]
