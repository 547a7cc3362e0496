"""Plates and the gauge: true size, measured in the PDF itself by another library."""

import numpy as np
import pandas as pd
import pytest
import xlsxwriter
from PIL import Image, ImageDraw
from pypdf import PdfReader
from pypdf.generic import ContentStream

from buttonstudy.draw.paper import paper
from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.plate import PlateResult, _entries, write_gauge, write_plate
from buttonstudy.survey.unread import NOT_RECORDS

POINT_MM = 25.4 / 72  # ISO 32000-1, 8.3.2.3: a unit of PDF space is 1/72 inch
LINE_MM = 25.4 / 40  # a button line is 1/40 inch: references in units.csv
PAPERS = {"A5": (148, 210), "A4": (210, 297)}  # ISO 216:2007
SURVEY = """Button no.,Diameter (mm),Mould shape,Photos
A/1,22.4,flat disc,
A/2,15.9,domed,
A/3,9,square,
A/4,,flat disc,
釦,31.75,,
"""


def shapes(page):
    """Give the boxes, in mm from the lower left corner, of curved paths and of pictures.

    A path's box is that of the points on its curves; matplotlib's circles have one at each side.
    """
    where, kept = np.eye(3), []
    points, curved = [], False
    circles, pictures = [], []

    def box(corners):
        placed = np.array([[x, y, 1.0] for x, y in corners]) @ where * POINT_MM
        return (*placed[:, :2].min(axis=0), *placed[:, :2].max(axis=0))

    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        numbers = [float(one) for one in operands] if operator in (b"cm", b"m", b"l", b"c") else []
        if operator == b"q":
            kept.append(where)
        elif operator == b"Q":
            where = kept.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = numbers
            where = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ where
        elif operator == b"m":
            points = [*points, tuple(numbers)]
        elif operator in (b"l", b"c"):
            curved = curved or operator == b"c"
            points.append(tuple(numbers[-2:]))
        elif operator in (b"S", b"s", b"f", b"B", b"b", b"n"):
            if curved and operator != b"n":
                circles.append(box(points))
            points, curved = [], False
        elif operator == b"Do":
            pictures.append(box([(0, 0), (1, 0), (1, 1), (0, 1)]))
    return circles, pictures


def widths(boxes):
    return [(right - left, top - bottom) for left, bottom, right, top in boxes]


@pytest.fixture
def survey(tmp_path):
    path = tmp_path / "survey.csv"
    path.write_text(SURVEY)
    return path


def plate(survey, tmp_path, **options):
    path = tmp_path / "plate.pdf"
    return write_plate([str(survey)], path, **options), PdfReader(path)


@pytest.mark.parametrize("size", PAPERS)
def test_outlines_are_true_to_a_hundredth_of_a_millimetre(survey, tmp_path, size):
    result, pdf = plate(survey, tmp_path, size=size)
    found = [one for page in pdf.pages for one in widths(shapes(page)[0])]
    assert len(found) == 4
    for measured, recorded in zip(sorted(found), [9, 15.9, 22.4, 31.75]):
        assert measured == pytest.approx((recorded, recorded), abs=0.01)
    box = pdf.pages[0].mediabox
    sides = (float(box.width) * POINT_MM, float(box.height) * POINT_MM)
    assert sides == pytest.approx(PAPERS[size], abs=0.05)
    assert (result.buttons, result.pages) == (4, len(pdf.pages))


def test_what_is_not_shown_is_told_on_the_plate_and_in_the_result(survey, tmp_path):
    result, pdf = plate(survey, tmp_path)
    words = " ".join(pdf.pages[-1].extract_text().split())
    assert result.notes == ("Without a recorded size, so not shown: A/4.",)
    assert result.says.startswith("4 buttons on 1 page. Without a recorded size")
    for told in ("A/4.", "A/1", "35.3 lines", "square: circle of its"):
        assert told in words
    assert "page 1 of 1" in words
    assert "Print at actual size (100 %)" in words


def test_only_the_buttons_asked_for_are_shown(survey, tmp_path):
    result, pdf = plate(survey, tmp_path, only=["a/2"])
    assert result.buttons == 1
    assert "A/1" not in pdf.pages[0].extract_text()


def test_a_plate_is_called_as_asked(survey, tmp_path):
    _, pdf = plate(survey, tmp_path, name="Drawers of the mill")
    assert "Drawers of the mill: buttons at actual size" in pdf.pages[0].extract_text()


def test_several_buttons_may_be_asked_for_in_one_word(survey, tmp_path):
    result, _ = plate(survey, tmp_path, only=["a/2,A/1,"])
    assert result.buttons == 2


@pytest.mark.parametrize("only", ["", ",", " "])
def test_no_number_stands_for_no_button_though_some_have_none(tmp_path, only):
    path = tmp_path / "some.csv"
    path.write_text("Button no.,Diameter (mm)\nA/1,16\n,18\n", encoding="utf-8")
    with pytest.raises(CallError):
        plate(path, tmp_path, only=[only])


def test_an_unknown_button_is_told_and_nothing_is_written(survey, tmp_path):
    with pytest.raises(CallError, match='No button is called "A/9"'):
        plate(survey, tmp_path, only=["A/9"])
    assert not (tmp_path / "plate.pdf").exists()


def test_many_buttons_go_on_to_further_pages(tmp_path):
    path = tmp_path / "many.csv"
    path.write_text("Button no.,Diameter (mm)\n" + "".join(f"{n},38\n" for n in range(30)))
    result, pdf = plate(path, tmp_path)
    assert result.pages == len(pdf.pages) > 2
    assert sum(len(shapes(page)[0]) for page in pdf.pages) == 30
    assert [page.extract_text().count("100 %") for page in pdf.pages] == [1] * result.pages


def test_too_many_buttons_are_refused(tmp_path):
    path = tmp_path / "many.csv"
    path.write_text("Button no.,Diameter (mm)\n" + "".join(f"{n},18\n" for n in range(601)))
    with pytest.raises(CallError, match="601 buttons is more than the 600 that one holds"):
        plate(path, tmp_path)


def test_with_nothing_to_draw_it_says_so(tmp_path):
    path = tmp_path / "empty.csv"
    path.write_text("Button no.,Diameter (mm)\n1,\n2,\n")
    with pytest.raises(CallError, match="nothing to draw. Without a recorded size, so not shown"):
        plate(path, tmp_path)
    path.write_text("nothing\n")
    with pytest.raises(PublishError, match="No button record"):
        plate(path, tmp_path)


@pytest.fixture
def photographed(tmp_path):
    image = Image.new("RGB", (900, 700), "white")
    ImageDraw.Draw(image).ellipse((150, 100, 650, 600), fill="indigo")
    exif = Image.Exif()
    exif[0x8298] = "Hester Marl"  # Copyright
    exif.get_ifd(0x8825)[2] = (51.0, 12.0, 34.0)  # GPSLatitude
    image.save(tmp_path / "front.jpg", exif=exif, comment=b"Hester Marl")
    Image.new("RGB", (900, 700), "white").save(tmp_path / "blank.jpg")
    path = tmp_path / "survey.csv"
    path.write_text(
        "Button no.,Diameter (mm),Photos\n1,22.4,front.jpg\n2,18,blank.jpg\n3,17,none.jpg\n"
    )
    return path


def test_photographs_are_true_in_size(photographed, tmp_path):
    result, pdf = plate(photographed, tmp_path)
    assert (result.buttons, result.photographs) == (3, 1)
    (picture,) = widths(shapes(pdf.pages[0])[1])
    # The edges are found to a hundredth of the width; the picture is placed to a hundredth of a mm.
    assert picture == pytest.approx((22.4, 22.4), abs=0.23)
    assert max(picture) == pytest.approx(22.4, abs=0.1)
    assert result.notes == (
        "Shown as outlines though photographs are named: 2: in no photograph does the button "
        'stand clear of a plain ground; 3: There is no photograph "none.jpg" beside the survey.',
    )


def test_nothing_private_reaches_the_plate(photographed, tmp_path):
    plate(photographed, tmp_path)
    content = (tmp_path / "plate.pdf").read_bytes()
    for private in (b"Hester", b"Exif", b"GPS", b"front.jpg"):
        assert private not in content
    for page in PdfReader(tmp_path / "plate.pdf").pages:
        assert "Hester" not in page.extract_text()


def test_buttons_of_one_number_are_told_apart_by_their_file(photographed, tmp_path):
    other = tmp_path / "other.csv"
    other.write_text("Button no.,Diameter (mm),Photos\n2,18,none.jpg\n2,19,\n")
    path = tmp_path / "plate.pdf"
    result = write_plate([str(photographed), str(other)], path)
    words = " ".join(PdfReader(path).pages[0].extract_text().split())
    for told in ("2 survey.csv 18 mm", "2 other.csv, row 2 18 mm", "2 other.csv, row 3 19 mm"):
        assert told in words
    assert "1 survey.csv" not in words
    assert "2 (survey.csv): in no photograph" in result.notes[0]
    assert '2 (other.csv, row 2): There is no photograph "none.jpg"' in result.notes[0]


@pytest.mark.parametrize("size", PAPERS)
def test_the_gauge_has_the_even_lines_at_true_size(tmp_path, size):
    pdf = PdfReader(write_gauge(tmp_path / "gauge.pdf", size=size))
    found = sorted(wide for page in pdf.pages for wide, _ in widths(shapes(page)[0]))
    assert found == pytest.approx([lines * LINE_MM for lines in range(10, 61, 2)], abs=0.01)
    words = " ".join(" ".join(page.extract_text().split()) for page in pdf.pages)
    for told in ("10 lines 6.35 mm", "24 lines 15.24 mm", "60 lines 38.10 mm"):
        assert told in words


def test_the_same_plate_has_the_same_bytes(survey, tmp_path):
    for name in ("one.pdf", "two.pdf"):
        write_plate([str(survey)], tmp_path / name)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_a_file_that_is_there_is_left_alone(survey, tmp_path):
    (tmp_path / "plate.pdf").write_bytes(b"mine")
    with pytest.raises(CallError, match="already there"):
        write_plate([str(survey)], tmp_path / "plate.pdf")
    assert (tmp_path / "plate.pdf").read_bytes() == b"mine"


def test_a_button_wider_than_the_paper_is_told():
    buttons = pd.DataFrame({"button_id": ["A/6"], "diameter_mm": [140.0]})
    assert _entries(buttons, {}, paper("A5")) == (
        [],
        ["Wider than A5 allows, so not shown: A/6 (140 mm)."],
    )
    assert len(_entries(buttons, {}, paper("A4"))[0]) == 1


def test_a_plate_is_titled_as_the_sheet_about_the_survey_says(tmp_path):
    path = tmp_path / "survey.xlsx"
    with xlsxwriter.Workbook(path) as book:
        sheet = book.add_worksheet("Buttons")
        for row, line in enumerate(SURVEY.splitlines()):
            sheet.write_row(row, 0, line.split(","))
        about = book.add_worksheet("About")
        about.write_row(0, 0, [NOT_RECORDS])
        about.write_row(1, 0, ["Name of the survey", "The Tarn fen"])
    write_plate([path], tmp_path / "plate.pdf")
    (page, *_) = PdfReader(tmp_path / "plate.pdf").pages
    assert "The Tarn fen: buttons at actual size" in page.extract_text()


@pytest.mark.parametrize(
    ("buttons", "photographs", "says"),
    [
        (1, 1, "1 button on 1 page, as a photograph."),
        (4, 1, "4 buttons on 1 page, 1 of them as a photograph."),
        (4, 4, "4 buttons on 1 page, as photographs."),
        (4, 0, "4 buttons on 1 page."),
    ],
)
def test_what_was_made_is_told_for_one_as_for_many(buttons, photographs, says):
    assert PlateResult(buttons, photographs, 1, ()).says == says
