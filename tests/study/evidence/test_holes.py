"""Checks that moulds without a hole are no evidence of how holes were filled."""

import pandas as pd

from buttonstudy.schemes import period_scheme
from buttonstudy.study.comparison.association import associations
from buttonstudy.study.comparison.turning import turning_years
from buttonstudy.study.evidence.holes import asked_of, moulds_with_holes
from buttonstudy.study.one_button.lacking import lacking_fields
from buttonstudy.study.one_button.rarity import trait_rarity
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.crossed import shares_crossed
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.reweighted import reweighted_shares
from buttonstudy.study.shares.traits import estimate_traits

BUTTONS = pd.DataFrame(
    {
        "set_id": ["a", "a", "b", "c", "d"],
        "file": "invented.csv",
        "mould_hole": pd.Categorical(["absent", "absent", "pierced", None, "not examined"]),
        "hole_fill": pd.Categorical(["open", None, "open", "absent", "not examined"]),
    }
)


def test_moulds_known_to_have_no_hole_are_left_out_and_no_others() -> None:
    assert moulds_with_holes(BUTTONS)["set_id"].to_list() == ["b", "d"]


def test_the_survey_itself_stays_as_it_was() -> None:
    before = BUTTONS.copy()
    moulds_with_holes(BUTTONS)
    pd.testing.assert_frame_equal(BUTTONS, before)


def test_only_what_fills_a_hole_or_its_width_is_asked_of_moulds_with_a_hole_alone() -> None:
    asked = {field: len(asked_of(BUTTONS, field)) for field in ("hole_fill", "padding")}
    assert asked == {"hole_fill": 2, "padding": 5}
    assert len(asked_of(BUTTONS, "hole_diameter")) == 2


def test_every_count_of_hole_fills_is_of_the_same_sets() -> None:
    """However it is asked, 6 sets were examined and 2 moulds without a hole are left out."""
    fills = ["wax"] * 3 + ["open"] * 4 + ["absent", None, "not examined"]
    buttons = pd.DataFrame(
        {
            "hole_fill": fills,
            "mould_hole": [None] * 6 + ["absent"] + [None] * 3,
            "mould_material": "bone",
            "year_from": 1850,
            "year_to": 1850,
        }
    )
    periods = period_scheme("centuries")
    by_period = shares_by_period(buttons, "hole_fill", periods).query("kind == 'all'")
    crossed = shares_crossed(buttons, "hole_fill", "mould_material").query("kind == 'all'")
    traits = estimate_traits(buttons, ["hole_fill"], periods, draws=50)
    estimated = estimated_shares(traits).query("kind == 'all'")
    reweighted = reweighted_shares(buttons, "hole_fill", ["mould_material"], draws=50)
    turning = turning_years(buttons, "hole_fill")
    tied = associations(buttons, "hole_fill", "mould_material")
    rare = trait_rarity(buttons, 0, periods).query("field == 'hole_fill'")
    tables = {"share": by_period, "crossed": crossed, "estimate": estimated, "kinds": reweighted}
    for name, table in tables.items():
        assert table["examined"].tolist() == [6, 6], name
        assert dict(zip(table["term"], table["with_term"])) == {"wax": 3, "open": 3}, name
    for name, table in {"turning": turning, "tied": tied}.items():
        assert table["sets"].tolist() == [6, 6], name
    assert by_period["sets"].tolist() == [8, 8]
    assert estimated["without_answer"].tolist() == [2, 2]
    assert reweighted["sets"].tolist() == [8, 8]
    assert rare[["examined", "with_term", "sets"]].to_numpy().tolist() == [[5, 2, 7]] * len(rare)


def test_a_mould_without_a_hole_has_no_fill_to_be_rare_or_lacking() -> None:
    buttons = BUTTONS.assign(hole_fill=["open", None, "open", "absent", "wax"], padding="wool")
    for row in (0, 3):
        rarity = trait_rarity(buttons, row, period_scheme("centuries"))
        assert "hole_fill" not in set(rarity["field"])
        assert not {"hole_fill", "hole_diameter"} & set(lacking_fields(buttons, row)["field"])
    assert "hole_diameter" in set(lacking_fields(buttons, 4)["field"])


def test_a_survey_without_these_fields_is_left_whole() -> None:
    assert len(moulds_with_holes(BUTTONS[["set_id", "file"]])) == 5
