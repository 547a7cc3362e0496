import pytest

from buttonstudy.draw.gauge import gauge_figures
from buttonstudy.draw.paper import paper
from buttonstudy.draw.plate import PlateButton, plate_figures, widest_on

LONG = "a number of eighty letters and more, as nobody would give a button but somebody might do"


@pytest.mark.parametrize("size", ["A5", "A4"])
def test_every_page_is_legible(legible, size):
    on = paper(size)
    buttons = [
        PlateButton(name, 7.0 + 11 * place, ("16.5 mm (15 to 18)", "26 lines", "small"))
        for place, name in enumerate(["A/1", LONG, "x" * 70, "釦", "пуговица", "$x_1$ <b>", "7"])
    ]
    notes = [f"Without a recorded size, so not shown: {LONG}.", LONG * 12]
    pages = plate_figures(buttons, on, LONG, notes)
    for page in pages:
        legible(page)
    assert len(pages) >= 2 if size == "A5" else 1


@pytest.mark.parametrize("size", ["A5", "A4"])
def test_the_gauge_is_legible(legible, size):
    for page in gauge_figures(paper(size)):
        legible(page)


def test_a_button_as_wide_as_the_paper_allows_is_drawn(legible):
    on = paper("A5")
    pages = plate_figures([PlateButton("1", widest_on(on), ("wide",))], on, "Plate")
    assert len(pages) == 1
    legible(pages[0])
