import pandas as pd
from PIL import Image, ImageDraw

from buttonstudy.publish.photographs import copy_photographs
from buttonstudy.publish.report import make_report
from buttonstudy.publish.sought import Sought
from buttonstudy.survey.photographs import record_photographs


def test_copies_hold_pixels_only_and_are_found_by_the_records_names(tmp_path):
    exif = Image.Exif()
    exif[0x8298] = "Hester Marl"  # Copyright
    exif.get_ifd(0x8825)[2] = (51.0, 12.0, 34.0)  # GPSLatitude
    (tmp_path / "photos").mkdir()
    for name in ("photos/front.jpg", "back.tif"):
        Image.new("RGB", (60, 40), "red").save(tmp_path / name, exif=exif)
    survey = tmp_path / "survey.csv"
    survey.write_text("Button no.\n1\n")
    text = "photos/front.jpg; back; ../out.jpg; none.jpg"
    buttons = pd.DataFrame({"file": ["survey.csv"], "photos": [text]})
    folder = tmp_path / "report" / "photographs"
    assert copy_photographs(buttons, 0, [survey], folder) == 2
    copies = sorted(path for path in folder.rglob("*") if path.is_file())
    assert [str(path.relative_to(folder)) for path in copies] == ["back.jpg", "photos/front.jpg"]
    for path in copies:
        with Image.open(path) as image:
            assert not image.getexif()
        assert b"Hester" not in path.read_bytes()
    album = record_photographs(buttons, 0, [], folder)
    assert [one.name for one in album.photographs] == ["photos/front.jpg", "back"]
    assert album.not_shown == ("../out.jpg", "none.jpg")


def test_one_buttons_page_shows_its_photographs_and_nothing_private(tmp_path):
    exif = Image.Exif()
    exif[0x8298] = "Hester Marl"  # Copyright
    image = Image.new("RGB", (900, 700), "white")
    ImageDraw.Draw(image).ellipse((150, 100, 650, 600), fill="indigo")
    image.save(tmp_path / "front.jpg", exif=exif, comment=b"Hester Marl")
    survey = tmp_path / "survey.csv"
    survey.write_text("Button no.,Diameter (mm),Photos\nA/1,22.4,front.jpg; back.jpg\nA/2,16,\n")
    result = make_report([survey], tmp_path / "page", sought=Sought("A/1"))
    assert result.failures == ()
    page = (result.folder / "one-button.html").read_text(encoding="utf-8")
    assert "1 photograph of button A/1. The scale comes from the recorded diameter" in page
    assert "Not shown: back.jpg." in page
    assert list((result.folder / "figures").glob("*photographs*.png"))
    executed = (result.folder / "notebooks" / "one-button.ipynb").read_text(encoding="utf-8")
    assert str(tmp_path) not in executed
    for path in result.folder.rglob("*"):
        assert not path.is_file() or b"Hester" not in path.read_bytes(), path
