from itertools import combinations, pairwise

import matplotlib
import numpy as np
import pandas as pd
import pytest

from buttonstudy import draw, study
from buttonstudy.draw.marks import edge_pt
from buttonstudy.draw.style import MM_PER_POINT, house_style, ink, print_size, print_sizes
from buttonstudy.schemes import SchemeError, period_scheme

# ISO 216: A4 is 210 x 297 mm, A5 148 x 210 mm.
ISO_216 = {"A4": (210, 297), "A5": (148, 210)}


def _linear(colour: str) -> np.ndarray:
    """Give linear RGB of a colour in sRGB (IEC 61966-2-1)."""
    channels = np.array([int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)])
    return np.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)


def _lightness(colour: str) -> float:
    """Give CIE 1976 lightness (CIE 15)."""
    light = float(np.array([0.2126, 0.7152, 0.0722]) @ _linear(colour))
    return 116 * light ** (1 / 3) - 16 if light > 216 / 24389 else light * 24389 / 27


def test_every_print_size_fits_its_paper():
    for size in print_sizes():
        width, height = ISO_216[size.paper]
        columns = 2 if size.name.endswith("column") else 1
        assert columns * size.width_mm < width
        assert size.height_mm < height


def test_an_unknown_print_size_is_refused_with_the_known_ones():
    with pytest.raises(SchemeError, match='There is no print size called "poster"') as caught:
        print_size("poster")
    assert "Use one of: a5-column, a5-page, a4-column, a4-page." in str(caught.value)


def test_fills_stay_apart_in_grey():
    fills = [_lightness(ink(name).colour) for name in ("ink", "deep", "sky", "pale", "paper")]
    gaps = [after - before for before, after in pairwise(fills)]
    assert min(gaps) > 10
    # The two palest are told apart by the dots of one of them.
    assert ink("pale").hatch
    assert min(gaps[:3]) > 19


def test_fills_that_are_used_together_differ_in_hatch_too():
    hatches = [ink(name).hatch for name in ("deep", "sky", "pale")]
    assert len(set(hatches)) == 3


def test_notes_keep_the_contrast_that_wcag_asks_of_small_type():
    # WCAG 2.1, 1.4.6: 7 to 1; relative luminance L, contrast (1 + 0.05) / (L + 0.05)
    lightness = _lightness(ink("quiet").colour)
    luminance = ((lightness + 16) / 116) ** 3
    assert 1.05 / (luminance + 0.05) >= 7


def test_the_house_style_leaves_settings_as_they_were():
    before = dict(matplotlib.rcParams)
    with house_style():
        assert matplotlib.rcParams["pdf.fonttype"] == 42
        assert matplotlib.rcParams["svg.hashsalt"]
        assert matplotlib.rcParams["savefig.bbox"] is None
        matplotlib.rcParams["font.size"] = 99
    assert dict(matplotlib.rcParams) == before


def test_a_notebooks_own_settings_do_not_reach_the_figures():
    with matplotlib.rc_context({"font.size": 30, "axes.grid": True}), house_style():
        assert matplotlib.rcParams["font.size"] == 7
        assert not matplotlib.rcParams["axes.grid"]


# Machado, Oliveira & Fernandes 2009 (IEEE Transactions on Visualization and Computer Graphics
# 15:1291), full deficiency, on linear RGB; matrices as in the library colorspacious 1.1.2.
DEFICIENCIES = {
    "red": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "green": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.01182, 0.04294, 0.968881],
    ],
    "blue": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.3039],
    ],
}
# sRGB to CIE XYZ, D65 (IEC 61966-2-1)
XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]], dtype=float
)


def _lab(linear: np.ndarray) -> np.ndarray:
    """Give CIE 1976 L*a*b* of linear RGB."""
    scaled = (XYZ @ np.clip(linear, 0, 1)) / XYZ.sum(axis=1)
    cubed = np.where(scaled > 216 / 24389, np.cbrt(scaled), (scaled * 24389 / 27 + 16) / 116)
    x, y, z = cubed
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


@pytest.mark.parametrize("deficiency", DEFICIENCIES)
def test_fills_stay_apart_for_colour_blind_readers(deficiency):
    seen = [
        _lab(np.array(DEFICIENCIES[deficiency]) @ _linear(ink(name).colour))
        for name in ("ink", "deep", "sky", "pale", "paper")
    ]
    distances = [float(np.linalg.norm(a - b)) for a, b in combinations(seen, 2)]
    assert min(distances) > 15  # a difference of 2.3 is just noticeable (Mahy et al. 1994)


def test_edges_of_marks_are_no_thinner_than_a_photocopier_keeps():
    # 0.18 mm, the thinnest of the usual widths of drafting practice (limits.csv).
    assert edge_pt() * MM_PER_POINT == pytest.approx(0.18)
    buttons = pd.DataFrame(
        {"hole_fill": ["wax"] * 40 + ["fur"] * 8 + [None] * 9, "year_from": 1800, "year_to": 1800}
    )
    periods = period_scheme("half-centuries")
    share = draw.shares_figure(study.shares_by_period(buttons, "hole_fill", periods), "hole_fill")
    dates = draw.periods_figure(
        study.record_by_period(buttons, periods), study.date_spans(buttons), "a5-column"
    )
    for drawn in (share, dates):
        edges = [patch.get_linewidth() for axes in drawn.figure.axes for patch in axes.patches]
        assert edges
        assert min(edges) == pytest.approx(edge_pt())
    (lines,) = dates.figure.axes[1].collections
    assert lines.get_linewidths() == pytest.approx([edge_pt()])
