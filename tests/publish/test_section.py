import pytest
from PIL import Image
from pypdf import PdfReader

from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.section import write_section

SURVEY = """Button no.,Diameter (mm),Mould material,Mould shape,Date
A/1,22,bone,domed,1830s
A/2,16,wood,flat disc,c. 1850
A/3,,wood,flat disc,
"""


@pytest.fixture
def survey(tmp_path):
    path = tmp_path / "survey.csv"
    path.write_text(SURVEY)
    return str(path)


def test_a_section_is_written_at_its_printed_size(survey, tmp_path):
    drawn = write_section("a/1", [survey], tmp_path / "one.pdf")
    page = PdfReader(tmp_path / "one.pdf").pages[0]
    assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(120, abs=0.05)
    assert "mould: bone, domed" in " ".join(page.extract_text().split())
    assert drawn.caption.startswith("Cross-section of button A/1 (1830–1839)")


def test_a_picture_has_300_dots_to_the_inch(survey, tmp_path):
    write_section("A/1", [survey], tmp_path / "one.png", size="a5-column")
    with Image.open(tmp_path / "one.png") as image:
        assert image.size[0] == pytest.approx(57 / 25.4 * 300, abs=1)
        assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)


def test_several_are_drawn_on_one_sheet(survey, tmp_path):
    drawn = write_section("A/1", [survey], tmp_path / "two.svg", beside=["A/2", "A/3"])
    assert "A/1 and A/2." in drawn.caption
    assert "Without a recorded size, so not drawn: A/3." in drawn.caption
    assert (tmp_path / "two.svg").read_text().count("<svg") == 1


REFUSED = {
    "unknown": (("B/9", "x.pdf"), 'No button is called "B/9"'),
    "no size": (("A/3", "x.pdf"), "no size is recorded for button A/3"),
    "other kind": (("A/1", "x.doc"), "must end with .pdf, .png or .svg"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_drawn_is_told(survey, tmp_path, case):
    (button, name), says = REFUSED[case]
    with pytest.raises(CallError, match=says):
        write_section(button, [survey], tmp_path / name)
    assert not (tmp_path / name).exists()


def test_a_survey_that_cannot_be_read_is_told(tmp_path):
    (tmp_path / "none.csv").touch()
    with pytest.raises(PublishError, match="No button record"):
        write_section("1", [str(tmp_path / "none.csv")], tmp_path / "one.pdf")
    with pytest.raises(CallError, match="there is no such file"):
        write_section("1", [str(tmp_path / "gone.csv")], tmp_path / "one.pdf")
