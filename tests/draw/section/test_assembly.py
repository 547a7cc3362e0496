import numpy as np
import pytest

from buttonstudy.draw.section.assembly import assemble
from buttonstudy.schemes import vocabulary


def across(piece):
    return float(np.ptp(piece.outline[:, 0]))


def of(pieces, material):
    return [piece for piece in pieces.surfaces if piece.material == material]


@pytest.fixture
def assembled(made):
    def make(**changes):
        return assemble(*made(**changes), 0.0)

    return make


def test_the_drawing_is_to_scale(assembled):
    pieces = assembled(attachment="absent")
    cover = np.concatenate([one.outline for one in pieces.surfaces if across(one) > 16.01])
    assert np.ptp(cover[:, 0]) == pytest.approx(18.0, abs=0.01)
    assert np.ptp(cover[:, 1]) == pytest.approx(6.0, abs=0.01)
    mould = of(pieces, "wood")
    assert len(mould) == 2
    assert min(one.outline[:, 0].min() for one in mould) == pytest.approx(-8.0)
    right_half = max(mould, key=lambda one: one.outline[:, 0].min())
    assert right_half.outline[:, 0].min() == pytest.approx(2.0)  # half of a 4 mm hole


def test_each_layer_is_a_surface_and_one_that_may_be_there_is_dashed(assembled):
    pieces = assembled(cover_layers_high=None, attachment="absent")
    layers = [one for one in pieces.surfaces if across(one) > 16.01]
    assert [one.certain for one in layers] == [True, True, False]
    assert [one.material for one in layers] == ["cloth", "cloth", ""]


def test_what_was_not_examined_is_dashed_and_without_hatch(assembled):
    inside = ["mould_material", "mould_shape", "mould_hole", "hole_fill", "hole_diameter_mm"]
    pieces = assembled(
        opened="not opened",
        **dict.fromkeys([*inside, "mould_diameter_mm", "cover_layers_low", "cover_layers_state"]),
    )
    (mould,) = [one for one in pieces.surfaces if not one.certain]
    assert mould.material == ""
    assert sum(not stroke.certain for stroke in pieces.strokes) >= 2  # a hole that may be there
    says = [one.says for one in pieces.callouts]
    assert "mould: not examined" in says
    assert "hole and its fill: not examined" in says
    assert "cover: silk, thin, layers not examined" in says


def test_a_hole_whose_fill_nobody_saw_is_crossed_out(assembled):
    def crossed(fill):
        return sum(not one.certain for one in assembled(hole_fill=fill).strokes)

    assert (crossed("open"), crossed("unclear"), crossed("not examined")) == (0, 2, 2)


def test_a_blind_hole_leaves_the_mould_in_one_piece(assembled):
    pieces = assembled(mould_hole="blind hole", hole_fill="wax")
    assert len(of(pieces, "wood")) == 3  # left, right, and the roof over the hole
    (wax,) = of(pieces, "plastic")
    assert wax.outline[:, 1].max() < 0.6 * 4.0


def test_thin_layers_become_one_band_that_says_so(made):
    pieces = assemble(*made(cover_layers_low=40, cover_layers_high=40), 0.1)
    assert len([one for one in pieces.surfaces if across(one) > 16.01]) == 1
    assert "cover: silk, thin, 40 layers (drawn as one)" in [one.says for one in pieces.callouts]


FIELDS = (
    "mould_material",
    "mould_shape",
    "mould_hole",
    "hole_fill",
    "padding",
    "cover_material",
    "cover_drawn_up",
    "back_finish",
    "attachment",
)
TERMS = [(field, term.term) for field in FIELDS for term in vocabulary().terms(field)]


@pytest.mark.parametrize("field", FIELDS)
def test_every_term_of_the_vocabulary_can_be_drawn_and_is_named(assembled, field):
    for name, term in TERMS:
        if name != field or term == "absent":
            continue
        pieces = assembled(**{field: term})
        left, bottom, right, top = pieces.box()
        assert np.isfinite([left, bottom, right, top]).all()
        assert -9.5 < left < right < 9.5, term
        told = " | ".join(one.says for one in pieces.callouts)
        assert term in told or (field, term) == ("attachment", "loose"), (term, told)


def test_a_term_that_the_kit_does_not_know_is_drawn_plain(assembled):
    pieces = assembled(mould_material="unobtainium", hole_fill="chewing gum", attachment="magic")
    assert len(of(pieces, "not told")) == 3


def test_assumed_sizes_are_dotted_and_the_measured_outline_stays_solid(assembled):
    measured = assembled()
    assert {piece.style for piece in measured.surfaces} == {"solid"}
    assumed = assembled(mould_diameter_mm=None, height_mm=None, hole_diameter_mm=None)
    mould = [piece for piece in assumed.surfaces if piece.material == "wood"]
    cover = [piece for piece in assumed.surfaces if piece.material == "cloth"]
    assert {piece.style for piece in mould} == {"dotted"}
    assert "dotted" in {piece.style for piece in cover}
    walls = [stroke for stroke in assumed.strokes if stroke.assumed]
    assert len(walls) == 2  # of the hole, whose width was assumed
    outer = [s for s in assumed.strokes if s.certain and not s.width_mm and not s.assumed]
    assert max(float(s.points[:, 0].max()) for s in outer) == pytest.approx(9.0, abs=0.01)


def test_two_layers_that_may_be_there_are_two_dashed_lines(assembled):
    drawn = assembled(cover_layers_low=1, cover_layers_high=3)
    dashed = [stroke for stroke in drawn.strokes if not stroke.certain]
    assert len(dashed) == 2
    assert {piece.style for piece in drawn.surfaces if piece.material == ""} == {"none"}
