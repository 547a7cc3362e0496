import pytest

from buttonstudy.draw.section.anatomy import anatomy_of
from buttonstudy.draw.section.facts import facts_of

# What is changed in the record, and the sentence that must be told; every fact is invented.
AGAINST = {
    "mould wider than button": (
        {"mould_diameter_mm": 20.0},
        "The mould, 20 mm, is wider than the button, 18 mm; the mould is drawn within it, not at "
        "its measure.",
    ),
    "hole wider than mould": (
        {"hole_diameter_mm": 17.0},
        "The hole, 17 mm, is as wide as the mould, 16 mm, or wider; the hole is not drawn at its "
        "measure.",
    ),
    "hole of a mould without one": (
        {"mould_hole": "absent"},
        "The mould is said to have no hole, and a hole of 4 mm is given; no hole is drawn.",
    ),
    "fill of a mould without a hole": (
        {"mould_hole": "absent", "hole_diameter_mm": None, "hole_fill": "wax"},
        "The mould is said to have no hole, and a hole fill, wax is given; no hole is drawn.",
    ),
    "no fill for want of a hole that is there": (
        {"hole_fill": "absent"},
        "The mould's hole is said to be “pierced”, and the hole fill to be none for want of a "
        "hole; an empty hole is drawn.",
    ),
    "cover without a layer": (
        {"cover_layers_low": 0, "cover_layers_high": 0},
        "The cover is said to be silk and to have no layer; none is drawn.",
    ),
    "layers of an absent cover": (
        {"cover_material": "absent"},
        "The cover is said to be absent and to have 2 layers; these are drawn.",
    ),
    "padded over without padding": (
        {"hole_fill": "padded over"},
        "Padding is said to lie over the hole, and padding to be absent; it is drawn over the "
        "hole only.",
    ),
    "crimped in a bare back": (
        {"cover_drawn_up": "crimped in metal back"},
        "The cover is said to be crimped in a metal back, and the back to be bare; no back is "
        "drawn.",
    ),
    "too low": (
        {"height_mm": 1.0},
        "The height, 1 mm, leaves no room for a mould within cover and padding; the drawing is "
        "higher.",
    ),
}


@pytest.mark.parametrize("case", AGAINST)
def test_contradictions_are_told_in_words(made, case):
    changes, says = AGAINST[case]
    assert made(**changes)[1].against == (says,)


def test_a_sound_record_has_no_contradiction(made):
    assert made()[1].against == ()


def test_measured_sizes_are_kept(made):
    _, body = made()
    assert (2 * body.radius, 2 * body.mould_radius, body.hole) == (18.0, 16.0, 4.0)
    assert body.layer == pytest.approx(0.5)  # 1 mm of room on each side for two layers
    assert body.thickness == pytest.approx(6.0 - 4 * 0.5)
    assert body.assumed == (
        "the cover fills the room between the widths of mould and button",
        "the mould fills what the height leaves",
    )


def test_what_is_assumed_is_said(made):
    _, body = made(mould_diameter_mm=None, height_mm=None, hole_diameter_mm=None, padding="wool")
    assert body.assumed == (
        "each layer of the cover is 0.2 mm thick",
        "the mould is as wide as the button without its cover",
        "the padding is 1.3 mm thick",
        "the mould is 5.5 mm thick, as a mould of the shape “domed” is usually drawn",
        "the hole is 3.1 mm wide",
    )


def test_a_mould_that_cannot_lie_in_the_button_is_not_drawn_at_its_measure(made):
    _, body = made(mould_diameter_mm=20.0)
    assert body.mould_radius < body.radius
    assert body.doubtful == {"mould"}


def test_readings_that_overlap_are_no_contradiction(made):
    _, body = made(mould_diameter_mm=18.3, mould_diameter_mm_low=17.8, mould_diameter_mm_high=18.8)
    assert body.against == ()
    assert "the mould, measured as wide as the button, leaves room for the cover" in body.assumed


LAYERS = {
    "counted": ((3, 3), (3, 0)),
    "at least two": ((2, None), (2, 1)),
    "one to three": ((1, 3), (1, 2)),
    "none": ((0, 0), (0, 0)),
}


@pytest.mark.parametrize("case", LAYERS)
def test_layers_are_drawn_as_they_are_known(made, case):
    (low, high), drawn = LAYERS[case]
    _, body = made(cover_layers_low=low, cover_layers_high=high)
    assert (body.layers, body.more_layers) == drawn


def test_a_mould_alone_can_be_drawn_and_nothing_at_all_cannot(row):
    assert anatomy_of(facts_of(row(diameter_mm=None, diameter_mm_low=None, diameter_mm_high=None)))
    nothing = {"mould_diameter_mm": None, "diameter_mm_low": None, "diameter_mm_high": None}
    assert anatomy_of(facts_of(row(diameter_mm=None, **nothing))) is None


def test_only_what_was_assumed_is_dotted_not_what_follows_from_other_sizes(made):
    assert made()[1].dotted == frozenset()
    _, body = made(mould_diameter_mm=None, height_mm=None, hole_diameter_mm=None, padding="wool")
    assert body.dotted == {"cover", "mould", "padding", "hole"}
