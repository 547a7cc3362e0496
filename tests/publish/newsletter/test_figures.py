"""The figures that can be chosen, and what is said of a name that is none."""

import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.newsletter.compared import Compared
from buttonstudy.publish.newsletter.counted import COUNTED, Wanted
from buttonstudy.publish.newsletter.figures import chosen_figures, figure_choices
from buttonstudy.schemes import period_scheme

REFUSED = {
    "sizes-diameter-by-perod": "There is no figure called 'sizes-diameter-by-perod'. "
    "Did you mean sizes-diameter-by-period?",
    "Cover cut": "There is no figure called 'Cover cut'. "
    "Did you mean construction-cover-cut-by-period?",
    "hat": "There is no figure called 'hat'. There are: ",
}


def test_figures_are_given_once_in_the_order_in_which_they_were_named():
    names = ["fills-ties", "sizes-heaping", "fills-ties"]
    assert [one.name for one in chosen_figures(names)] == ["fills-ties", "sizes-heaping"]


@pytest.mark.parametrize("name", REFUSED)
def test_an_unknown_name_gets_the_nearest(name):
    with pytest.raises(CallError) as caught:
        chosen_figures([name])
    assert str(caught.value).startswith(REFUSED[name])


def test_no_name_at_all_is_told():
    with pytest.raises(CallError, match="No figure was named. There are: .*fills-ties"):
        chosen_figures([])


def test_every_figure_is_called_as_its_file_in_a_report(survey):
    """A report's files are called after the notebook and what is drawn (Page.figure)."""
    wanted = Wanted(
        buttons=survey.buttons,
        periods=period_scheme("british-reigns"),
        classes="us-society",
        size="a5-column",
        source="",
        compare=["mould_material"],
        earlier="",
        later="",
        seed=1,
    )
    compared = Compared(wanted)
    for name in figure_choices():
        notebook, _, drawn = name.partition("-")
        told = COUNTED[name](wanted) if name in COUNTED else compared.told(drawn)
        assert notebook in ("sizes", "construction", "fills", "comparison")
        assert told.drawn.name == drawn
        assert told.sentences
