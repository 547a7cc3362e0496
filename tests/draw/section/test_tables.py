"""The tables behind the drawing: complete, and hatches that stay apart in grey."""

from itertools import combinations

import pytest

from buttonstudy.draw.section.tables import SEVERAL, drawn_as, material_of, materials, shape
from buttonstudy.schemes import rows, vocabulary

FIELDS = ("mould_material", "mould_hole", "hole_fill", "padding", "cover_material")
FIELDS += ("cover_drawn_up", "back_finish", "attachment")


@pytest.mark.parametrize("field", FIELDS)
def test_every_term_of_the_vocabulary_has_its_row(field):
    for term in vocabulary().terms(field):
        assert term.term == "absent" or drawn_as(field, term.term), term.term


def test_every_shape_has_its_row():
    shapes = {row["shape"] for row in rows("section_shapes")}
    assert shapes == {one.term for one in vocabulary().terms("mould_shape")} - {"absent"}
    assert shape("square").round is False


def test_every_material_that_is_named_has_a_hatch():
    named = {row["material"] for row in rows("section_parts")} - {""}
    assert named | {SEVERAL} == set(materials())


def test_no_two_materials_have_the_same_lines():
    for one, other in combinations(materials().values(), 2):
        assert one.lines != other.lines, (one.name, other.name)


def test_hatches_keep_their_contrast_on_every_tint():
    # WCAG 2.1, 1.4.11: 3 to 1 for graphics; here black lines on a tint have at least 10 to 1.
    for material in materials().values():
        channels = [int(material.tint[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
        light = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
        assert (light + 0.05) / 0.05 >= 10


def test_materials_of_several_terms_are_one_only_if_they_share_it():
    assert material_of("mould_material", ("brass", "iron")) == "metal"
    assert material_of("mould_material", ("brass", "wood")) == SEVERAL
    assert material_of("mould_material", ("unobtainium",)) == "not told"
