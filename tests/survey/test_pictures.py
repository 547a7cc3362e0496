"""Pictures: upright, scaled down, nothing but their pixels, and never too many of them."""

import zlib
from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageDraw

from buttonstudy.survey.pictures import PhotographError, read_photograph


def corners(orientation=1):
    """Make a picture with a colour in each corner, stored as a camera stores it turned."""
    image = Image.new("RGB", (60, 40), "white")
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 0, 29, 19), fill="red")
    draw.rectangle((30, 20, 59, 39), fill="blue")
    # What each value of tag 274 asks a reader to undo: TIFF 6.0, Orientation.
    stored = {
        1: None,
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]
    return image if stored is None else image.transpose(stored)


def private(orientation=1):
    """Make Exif data with a place, an owner and a serial number."""
    exif = Image.Exif()
    exif[274] = orientation
    exif[0x013B] = "Hester Marl"  # Artist
    exif[0x8298] = "Hester Marl"  # Copyright
    exif.get_ifd(0x8769)[0xA430] = "Hester Marl"  # CameraOwnerName
    exif.get_ifd(0x8825)[2] = (51.0, 12.0, 34.0)  # GPSLatitude
    return exif


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("ending", ["png", "tif"])
def test_photographs_are_turned_upright(tmp_path, orientation, ending):
    path = tmp_path / f"front.{ending}"
    corners(orientation).save(path, exif=private(orientation))
    pixels = read_photograph(path).pixels
    assert pixels.shape == (40, 60, 3)
    assert pixels[5, 5].tolist() == [255, 0, 0]
    assert pixels[35, 55].tolist() == [0, 0, 255]
    assert pixels[5, 55].tolist() == [255, 255, 255]


def test_nothing_but_pixels_is_kept(tmp_path):
    path = tmp_path / "front.jpg"
    corners().save(path, exif=private(), comment=b"Hester Marl")
    assert b"Hester Marl" in path.read_bytes()
    photograph = read_photograph(path)
    assert type(photograph.pixels) is np.ndarray
    assert {name: type(getattr(photograph, name)) for name in photograph.__slots__} == {
        "name": str,
        "pixels": np.ndarray,
    }


def test_a_large_photograph_is_scaled_down(tmp_path):
    path = tmp_path / "large.jpg"
    Image.new("RGB", (5000, 2500), "green").save(path)
    assert read_photograph(path).pixels.shape == (1000, 2000, 3)


def _bomb(width, height):
    """Make a small PNG file whose header promises a huge picture (PNG specification, 11.2.2)."""

    def chunk(kind, data):
        body = kind + data
        return len(data).to_bytes(4) + body + zlib.crc32(body).to_bytes(4)

    header = width.to_bytes(4) + height.to_bytes(4) + bytes([8, 2, 0, 0, 0])
    parts = chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + parts


@pytest.mark.parametrize("sides", [(13000, 12000), (60000, 60000)])
def test_a_picture_that_would_unpack_to_too_much_is_refused(tmp_path, sides):
    path = tmp_path / "bomb.png"
    path.write_bytes(_bomb(*sides))
    with pytest.raises(PhotographError, match="so it was not opened") as caught:
        read_photograph(path)
    assert caught.value.kind == "photo-too-large"


def _cut_short():
    content = BytesIO()
    Image.effect_noise((200, 200), 50).save(content, "JPEG")
    return content.getvalue()[:900]


DAMAGED = {"empty": b"", "text": b"no picture", "cut short": _cut_short(), "pdf": b"%PDF-1.7\n"}


@pytest.mark.parametrize("name", DAMAGED)
def test_a_damaged_photograph_is_told(tmp_path, name):
    path = tmp_path / "front.jpg"
    path.write_bytes(DAMAGED[name])
    with pytest.raises(PhotographError, match="cannot be read: it is damaged, or no picture"):
        read_photograph(path)


KINDS = {
    "grey": (Image.new("L", (4, 4), 128), 128),
    "clear": (Image.new("RGBA", (4, 4), (0, 0, 0, 0)), 255),
    "palette": (Image.new("P", (4, 4), 0), 0),
    "print": (Image.new("CMYK", (4, 4), (0, 0, 0, 255)), 0),
}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_picture_becomes_colours_on_white(tmp_path, kind):
    image, grey = KINDS[kind]
    path = tmp_path / "front.tif"
    image.save(path)
    assert np.abs(read_photograph(path).pixels.astype(int) - grey).max() <= 2


def test_16_bits_of_grey_keep_their_range(tmp_path):
    path = tmp_path / "front.png"
    Image.fromarray(np.array([[0, 65535], [32768, 0]], dtype=np.uint16)).save(path)
    assert read_photograph(path).pixels[..., 0].tolist() == [[0, 255], [127, 0]]
