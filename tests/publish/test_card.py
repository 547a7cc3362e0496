"""The printed card; its ruler is measured in the PDF itself, by another library."""

from itertools import pairwise

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from buttonstudy.publish.card import write_card
from buttonstudy.publish.errors import CallError
from buttonstudy.schemes import fields

POINT_MM = 25.4 / 72  # ISO 32000-1, 8.3.2.3: a unit of PDF space is 1/72 inch
LINE_MM = 25.4 / 40  # a button line is 1/40 inch: references in units.csv
PAPERS = {"A5": (148, 210), "A4": (210, 297)}  # ISO 216:2007


def upright_strokes(page):
    """Give place, lower and upper end, in mm, of every upright stroke on a page."""
    where, strokes, moved = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], []
    kept = []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"q":
            kept.append(where)
        elif operator == b"Q":
            where = kept.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = map(float, operands)
            assert (b, c) == (0, 0)
            where = (
                a * where[0],
                0,
                0,
                d * where[3],
                where[4] + e * where[0],
                where[5] + f * where[3],
            )
        elif operator in (b"m", b"l"):
            point = (
                float(operands[0]) * where[0] + where[4],
                float(operands[1]) * where[3] + where[5],
            )
            if operator == b"l" and abs(point[0] - moved[0]) < 1e-6:
                ends = sorted((point[1] * POINT_MM, moved[1] * POINT_MM))
                strokes.append((point[0] * POINT_MM, *ends))
            moved = point
    return strokes


@pytest.fixture(scope="module", params=PAPERS)
def card(request, tmp_path_factory):
    path = tmp_path_factory.mktemp("card") / "card.pdf"
    return request.param, PdfReader(write_card(path, size=request.param))


def test_the_page_has_the_size_of_its_paper(card):
    name, pdf = card
    box = pdf.pages[0].mediabox
    sides = (float(box.width) * POINT_MM, float(box.height) * POINT_MM)
    assert sides == pytest.approx(PAPERS[name], abs=0.05)
    assert pdf.pages[0].user_unit == 1


def test_the_ruler_is_true_to_a_hundredth_of_a_millimetre(card):
    strokes = upright_strokes(card[1].pages[0])
    middle = max({low for _, low, _ in strokes}, key=lambda y: sum(s[1] == y for s in strokes))
    mm = sorted(x for x, low, _ in strokes if low == middle)
    lines = sorted(x for x, _, high in strokes if high == pytest.approx(middle, abs=1e-6))
    assert len(mm) >= 101
    assert [b - a for a, b in pairwise(mm)] == pytest.approx([1.0] * (len(mm) - 1), abs=0.01)
    assert mm[100] - mm[0] == pytest.approx(100.0, abs=0.01)
    assert [b - a for a, b in pairwise(lines)] == pytest.approx(
        [LINE_MM] * (len(lines) - 1), abs=0.01
    )
    assert lines[0] == pytest.approx(mm[0], abs=0.001)
    assert lines[160] - lines[0] == pytest.approx(101.6, abs=0.01)  # 160 lines are 4 inches


def test_each_field_stands_on_the_card(card):
    words = " ".join(card[1].pages[0].extract_text().split())
    for field in fields():
        assert (field.label in words) == (field.field != "accepted"), field
    assert "Print at actual size (100 %)" in words
    assert "vegetable ivory" in card[1].pages[1].extract_text()


def test_fields_and_unit_can_be_chosen_and_the_bytes_are_the_same_again(tmp_path):
    paths = [tmp_path / "one.pdf", tmp_path / "two.pdf"]
    for path in paths:
        write_card(path, names=["height"], unit="in")
    assert paths[0].read_bytes() == paths[1].read_bytes()
    pages = PdfReader(paths[0]).pages
    assert len(pages) == 1
    assert "Height (in)" in pages[0].extract_text()
    assert "Thread" not in pages[0].extract_text()


def test_a_file_that_is_there_is_left_alone(tmp_path):
    path = tmp_path / "card.pdf"
    path.write_bytes(b"mine")
    with pytest.raises(CallError, match="already there"):
        write_card(path)
    assert path.read_bytes() == b"mine"
