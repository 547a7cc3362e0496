"""Wordings of size as practitioners write them, and what they say.

The wordings and their meanings are common practice, no source, unless one is named.
"""

import pytest

from buttonstudy.readings.lengths.reading import read_lengths

IN = 25.4  # mm, exactly: international agreement of 1959
LINE = 0.635  # mm, exactly: 1/40 inch, US Tariff Act 1897, paragraph 414
PARIS = 2.2558291  # mm: GNU units definitions, ligne

# One size alone: wording, mm, unit, step in mm.
ONE_SIZE = [
    ("16 mm", 16, "mm", 1),
    ("16mm", 16, "mm", 1),
    ("16 MM.", 16, "mm", 1),
    ("16 millimetres", 16, "mm", 1),
    ("15.9 mm", 15.9, "mm", 0.1),
    ("15,9 mm", 15.9, "mm", 0.1),
    ("15·9 mm", 15.9, "mm", 0.1),
    ("15.90 mm", 15.9, "mm", 0.01),
    ("16 1/2 mm", 16.5, "mm", 0.5),
    ("16½ mm", 16.5, "mm", 0.5),
    ("16-mm", 16, "mm", 1),
    ("16\u00a0mm", 16, "mm", 1),
    ("\t16 mm ", 16, "mm", 1),
    ("1.6 cm", 16, "cm", 1),
    ("1.59 cm", 15.9, "cm", 0.1),
    ("2 cm", 20, "cm", 1),
    ("2 1/2 cm", 25, "cm", 1),
    ("0.016 m", 16, "m", 1),
    ("5/8 in", 5 / 8 * IN, "in", IN / 8),
    ("5/8 in.", 5 / 8 * IN, "in", IN / 8),
    ("5/8in", 5 / 8 * IN, "in", IN / 8),
    ("5/8 ins.", 5 / 8 * IN, "in", IN / 8),
    ("5/8 inch", 5 / 8 * IN, "in", IN / 8),
    ("5/8-inch", 5 / 8 * IN, "in", IN / 8),
    ('5/8"', 5 / 8 * IN, "in", IN / 8),
    ("5/8”", 5 / 8 * IN, "in", IN / 8),
    ("5/8″", 5 / 8 * IN, "in", IN / 8),
    ("5/8''", 5 / 8 * IN, "in", IN / 8),
    ("5/8’’", 5 / 8 * IN, "in", IN / 8),
    ("5⁄8 in", 5 / 8 * IN, "in", IN / 8),
    ("⅝ in", 5 / 8 * IN, "in", IN / 8),
    ("10/16 in", 5 / 8 * IN, "in", IN / 16),
    ("1 1/4 in", 1.25 * IN, "in", IN / 8),
    ("1-1/4 in", 1.25 * IN, "in", IN / 8),
    ("1¼ in", 1.25 * IN, "in", IN / 8),
    ("1 ¼″", 1.25 * IN, "in", IN / 8),
    ("1 3/16 inches", 1.1875 * IN, "in", IN / 16),
    ("1 in", IN, "in", IN / 8),
    ("1.0 in", IN, "in", IN / 8),
    ("0.5 in", 0.5 * IN, "in", IN / 8),
    ("0.625 in", 0.625 * IN, "in", IN / 8),
    ("0.9375 in", 0.9375 * IN, "in", IN / 16),
    (".625 in", 0.625 * IN, "in", IN / 8),
    ("0.59 in", 0.59 * IN, "in", IN / 100),
    ("0.590 in", 0.59 * IN, "in", IN / 1000),
    ("half an inch", IN / 2, "in", IN / 8),
    ("three quarters of an inch", 0.75 * IN, "in", IN / 8),
    ("an inch and a quarter", 1.25 * IN, "in", IN / 8),
    ("24 L", 24 * LINE, "lines", LINE),
    ("24L", 24 * LINE, "lines", LINE),
    ("24l.", 24 * LINE, "lines", LINE),
    ("24 line", 24 * LINE, "lines", LINE),
    ("24 lines", 24 * LINE, "lines", LINE),
    ("24 ligne", 24 * LINE, "lines", LINE),
    ("24 lignes", 24 * LINE, "lines", LINE),
    ("24'''", 24 * LINE, "lines", LINE),
    ("24‴", 24 * LINE, "lines", LINE),
    ("24 1/2 L", 24.5 * LINE, "lines", LINE / 2),
    ("24.5 lines", 24.5 * LINE, "lines", LINE / 10),
    ("line 20", 20 * LINE, "lines", LINE),
    ("lines: 24", 24 * LINE, "lines", LINE),
    ("10 Paris lines", 10 * PARIS, "Paris lines", PARIS),
    ("10 French lines", 10 * PARIS, "Paris lines", PARIS),
    ("10 1/2 lignes de Paris", 10.5 * PARIS, "Paris lines", PARIS / 2),
    ("9''' (Paris)", 9 * PARIS, "Paris lines", PARIS),
    ("mm: 16", 16, "mm", 1),
]

# Ranges, approximate sizes and stated leeway: wording, low, best, high in mm, approximate.
INTERVALS = [
    ("15-16 mm", 14.5, 15.5, 16.5, False),
    ("15–16 mm", 14.5, 15.5, 16.5, False),
    ("15 - 16mm", 14.5, 15.5, 16.5, False),
    ("15 mm - 16 mm", 14.5, 15.5, 16.5, False),
    ("15 to 16 mm", 14.5, 15.5, 16.5, False),
    ("15 or 16 mm", 14.5, 15.5, 16.5, False),
    ("between 15 and 16 mm", 14.5, 15.5, 16.5, False),
    ("15.5-16.5 mm", 15.45, 16, 16.55, False),
    ("1/2-5/8 in", 7 / 16 * IN, 9 / 16 * IN, 11 / 16 * IN, False),
    ("1-1 1/4 in", 15 / 16 * IN, 9 / 8 * IN, 21 / 16 * IN, False),
    ("24-26 L", 23.5 * LINE, 25 * LINE, 26.5 * LINE, False),
    ("c. 16 mm", 15, 16, 17, True),
    ("c.16mm", 15, 16, 17, True),
    ("ca 16 mm", 15, 16, 17, True),
    ("circa 16 mm", 15, 16, 17, True),
    ("approx. 16 mm", 15, 16, 17, True),
    ("about 16 mm", 15, 16, 17, True),
    ("~16mm", 15, 16, 17, True),
    ("16 mm approx", 15, 16, 17, True),
    ("16 mm (approx.)", 15, 16, 17, True),
    ("c. 5/8 in", 0.5 * IN, 5 / 8 * IN, 0.75 * IN, True),
    ("c. 15-16 mm", 14, 15.5, 17, True),
    ("16 ± 0.3 mm", 15.7, 16, 16.3, False),
    ("16 mm +/- 0.3", 15.7, 16, 16.3, False),
    ("1 ± 2 mm", 0, 1, 3, False),
]

# Everything in the cell: wording, then (mm, dimension, part) of each length.
SEVERAL = [
    ("Ø 16 mm", [(16, "diameter", "")]),
    ("Ø16mm", [(16, "diameter", "")]),
    ("⌀ 16 mm", [(16, "diameter", "")]),
    ("Diam. 16 mm", [(16, "diameter", "")]),
    ("dia 16 mm", [(16, "diameter", "")]),
    ("D. 16 mm", [(16, "diameter", "")]),
    ("D=16mm", [(16, "diameter", "")]),
    ("16 mm diam.", [(16, "diameter", "")]),
    ("16mm in diameter", [(16, "diameter", "")]),
    ("1 in in diameter", [(IN, "diameter", "")]),
    ("16 mm (diam.)", [(16, "diameter", "")]),
    ("Diam. 5/8 in. (1.6 cm)", [(5 / 8 * IN, "diameter", ""), (16, "diameter", "")]),
    ("5/8 in, 16 mm, 26 L", [(5 / 8 * IN, "", ""), (16, "", ""), (26 * LINE, "", "")]),
    ("5/8 in = 16 mm", [(5 / 8 * IN, "", ""), (16, "", "")]),
    ("24L/15mm", [(24 * LINE, "", ""), (15, "", "")]),
    ("16mm - 5/8in", [(16, "", ""), (5 / 8 * IN, "", "")]),
    ("16 mm and 5/8 in", [(16, "", ""), (5 / 8 * IN, "", "")]),
    ("15 and 16 mm", [(15, "", ""), (16, "", "")]),
    ("16 mm\n5/8 in", [(16, "", ""), (5 / 8 * IN, "", "")]),
    ("15mm x 15mm x 4mm", [(15, "", ""), (15, "", ""), (4, "", "")]),
    ("15x15x4mm", [(15, "", ""), (15, "", ""), (4, "", "")]),
    ("15mmx15mmx4mm", [(15, "", ""), (15, "", ""), (4, "", "")]),
    ("15 × 4 mm", [(15, "", ""), (4, "", "")]),
    ("15mm x 4", [(15, "", ""), (4, "", "")]),
    ("15 by 4 mm", [(15, "", ""), (4, "", "")]),
    (".5x.25 in", [(IN / 2, "", ""), (IN / 4, "", "")]),
    ("16 mm diam x 5 mm high", [(16, "diameter", ""), (5, "height", "")]),
    ("dia 16mm x h 5mm", [(16, "diameter", ""), (5, "height", "")]),
    ("16mm (dia) x 5mm (h)", [(16, "diameter", ""), (5, "height", "")]),
    ("16 mm face, 5 mm thick", [(16, "", ""), (5, "height", "")]),
    ("H x D: 5 x 16 mm", [(5, "height", ""), (16, "diameter", "")]),
    ("L x W: 20 x 12 mm", [(20, "length", ""), (12, "width", "")]),
    ("20l x 12w mm", [(20, "length", ""), (12, "width", "")]),
    ("L: 20 mm", [(20, "length", "")]),
    ("18 mm (mould 16 mm)", [(18, "", ""), (16, "", "mould")]),
    ("18 mm, mold 16 mm", [(18, "", ""), (16, "", "mould")]),
    ("mould: 16 mm; button: 18 mm", [(16, "", "mould"), (18, "", "")]),
    ("16 mm mould", [(16, "", "mould")]),
    ("Mould 16 mm, 5/8 in", [(16, "", "mould"), (5 / 8 * IN, "", "mould")]),
    ("18 mm + shank 5 mm", [(18, "", ""), (5, "", "shank")]),
    ("(a): 16 mm; (b): 17 mm", [(16, "", "a"), (17, "", "b")]),
    ("a: 16 mm; b: 17 mm", [(16, "", "a"), (17, "", "b")]),
    ("1: 16 mm; 2: 17 mm", [(16, "", "1"), (17, "", "2")]),
]

# Layouts of the dimension texts in the Cooper Hewitt collection export (CC0), as written there.
MUSEUM = [
    (
        "H x diam.: 1.2 x 2.5 cm (1/2 x 1 in.)",
        [(12, "height", ""), (25, "diameter", ""), (IN / 2, "height", ""), (IN, "diameter", "")],
    ),
    (
        "L x W x D: 3 x 1.5 cm (1 3/16 x 9/16 in.)",
        [
            (30, "length", ""),
            (15, "width", ""),
            (19 / 16 * IN, "length", ""),
            (9 / 16 * IN, "width", ""),
        ],
    ),
    ("Di x D: 3.7 x 1 cm", [(37, "diameter", ""), (10, "depth", "")]),
    ("H x diam.: 1 cm (3/8 in.)", [(10, "diameter", ""), (3 / 8 * IN, "diameter", "")]),
    (
        "H x diam. (a): 1.5 x 2.1 cm ; H x diam. (b): 1.5 x 2.2 cm",
        [(15, "height", "a"), (21, "diameter", "a"), (15, "height", "b"), (22, "diameter", "b")],
    ),
    (
        "H x diam. (a: saucer): 2.2 x 11.6 cm",
        [(22, "height", "a: saucer"), (116, "diameter", "a: saucer")],
    ),
    ("Overall: 2.4 x 2.5 x 1.2 cm", [(24, "", ""), (25, "", ""), (12, "", "")]),
    ("a, b: 1.5 x 0.5 cm (9/16 x 3/16 in.)", None),
    ("height 8.1, diameter 12.9 centimeters", [(81, "height", ""), (129, "diameter", "")]),
    ("12.2 x 5.6 diameter  cm", [(122, "", ""), (56, "diameter", "")]),
    ("Overall: 6 x diameter 2.4 cm", [(60, "", ""), (24, "diameter", "")]),
    (
        "9.1h x 3.6w x 2d cm (3 9/16 x 1 7/16 x 13/16 in. )",
        [
            (91, "height", ""),
            (36, "width", ""),
            (20, "depth", ""),
            (57 / 16 * IN, "height", ""),
            (23 / 16 * IN, "width", ""),
            (13 / 16 * IN, "depth", ""),
        ],
    ),
    ("H: 2.4 x Di: 22.1 to 23.4 cm", [(24, "height", ""), (227.5, "diameter", "")]),
    (
        'lenght:14 cm (5 1/2") x width: 3 cm (1 1/4")',
        [
            (140, "length", ""),
            (30, "width", ""),
            (5.5 * IN, "length", ""),
            (1.25 * IN, "width", ""),
        ],
    ),
    (
        "9.5 cm diameter (3 3/4 in.), 3.2 cm d (1 1/4 in.)",
        [
            (95, "diameter", ""),
            (3.75 * IN, "diameter", ""),
            (32, "depth", ""),
            (1.25 * IN, "depth", ""),
        ],
    ),
    ("(Vase) H x diam.: 7 x 5 cm", [(70, "height", "Vase"), (50, "diameter", "Vase")]),
    ("Part b, saucer) 2.9h x 13.8di  cm", None),
    ("12.5 cm ; diameter at lip: 25 cm.", [(125, "", ""), (250, "diameter", "lip")]),
]

# Wordings that lean on the heading's unit: wording, unit in the heading, mm, unit as read.
HEADED = [
    ("16", "mm", 16, "mm"),
    ("16.", "mm", 16, "mm"),
    ("16.0", "mm", 16, "mm"),
    ("1,6", "cm", 16, "cm"),
    ("5/8", "in", 5 / 8 * IN, "in"),
    ("1¼", "in", 1.25 * IN, "in"),
    ("24", "lines", 24 * LINE, "lines"),
    ("L 24", "lines", 24 * LINE, "lines"),
    ("24", "Paris lines", 24 * PARIS, "Paris lines"),
    ("10 L", "Paris lines", 10 * PARIS, "Paris lines"),
    ("20 English lines", "Paris lines", 20 * LINE, "lines"),
    ("5/8 in", "mm", 5 / 8 * IN, "in"),
    ("16 mm", "in", 16, "mm"),
    ("c. 16", "mm", 16, "mm"),
    ("15-17", "mm", 16, "mm"),
    ("Ø 16", "mm", 16, "mm"),
]


@pytest.mark.parametrize(("text", "mm", "unit", "step"), ONE_SIZE, ids=lambda one: str(one))
def test_one_size_is_read_with_its_unit_and_step(
    text: str, mm: float, unit: str, step: float
) -> None:
    reading = read_lengths(text)
    assert [(one.unit, one.approximate) for one in reading.lengths] == [(unit, False)]
    one = reading.lengths[0]
    assert (one.low, one.best, one.high) == pytest.approx((mm - step / 2, mm, mm + step / 2))
    assert one.step_mm == pytest.approx(step)
    assert reading.doubts == ()


@pytest.mark.parametrize(("text", "low", "best", "high", "approximate"), INTERVALS)
def test_ranges_and_approximate_sizes_are_intervals(
    text: str, low: float, best: float, high: float, approximate: bool
) -> None:
    reading = read_lengths(text)
    (one,) = reading.lengths
    assert (one.low, one.best, one.high) == pytest.approx((low, best, high))
    assert one.approximate is approximate
    assert reading.doubts == ()


@pytest.mark.parametrize(("text", "lengths"), SEVERAL, ids=lambda one: str(one)[:50])
def test_all_sizes_in_a_cell_are_read_with_dimension_and_part(
    text: str, lengths: list[tuple[float, str, str]]
) -> None:
    reading = read_lengths(text)
    assert [(one.dimension, one.part) for one in reading.lengths] == [one[1:] for one in lengths]
    assert [one.best for one in reading.lengths] == pytest.approx([one[0] for one in lengths])
    assert reading.doubts == ()


@pytest.mark.parametrize(("text", "lengths"), MUSEUM, ids=lambda one: str(one)[:50])
def test_museum_layouts_are_read(text: str, lengths: list[tuple[float, str, str]] | None) -> None:
    reading = read_lengths(text)
    assert not any(doubt.fatal for doubt in reading.doubts)
    if lengths is None:
        assert reading.lengths
        return
    assert [(one.dimension, one.part) for one in reading.lengths] == [one[1:] for one in lengths]
    assert [one.best for one in reading.lengths] == pytest.approx([one[0] for one in lengths])


@pytest.mark.parametrize(("text", "heading", "mm", "unit"), HEADED)
def test_the_headings_unit_holds_where_the_cell_has_none(
    text: str, heading: str, mm: float, unit: str
) -> None:
    (one,) = read_lengths(text, heading).lengths
    assert (one.best, one.unit) == (pytest.approx(mm), unit)


def test_sizes_written_as_one_list_have_one_group_number() -> None:
    lengths = read_lengths("15 x 15 x 4 mm (5/8 x 5/8 x 1/8 in)").lengths
    assert [one.group for one in lengths] == [0, 0, 0, 1, 1, 1]


def test_an_approximate_size_makes_its_repeat_in_brackets_approximate() -> None:
    assert [one.approximate for one in read_lengths("c. 16 mm (5/8 in)").lengths] == [True, True]
    assert [one.approximate for one in read_lengths("16 mm (c. 5/8 in)").lengths] == [False, True]


def test_figures_are_the_nearest_floats_to_the_exact_ones() -> None:
    """3/8 in is exactly 9.525 mm, an edge of the published size classes."""
    (one,) = read_lengths("3/8 in").lengths
    assert (one.best, one.low) == (9.525, 7.9375)


def test_an_unknown_heading_unit_is_refused() -> None:
    with pytest.raises(ValueError, match='"ells" is not a unit. Use one of: mm, cm, m, in, lines'):
        read_lengths("16", "ells")
