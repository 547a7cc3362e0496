"""Every button of the demo surveys can be set beside the survey and drawn, however little is known."""

import pandas as pd
import pytest

import buttonstudy as bs

SCHEME = "british-reigns"


@pytest.fixture(scope="module")
def buttons() -> pd.DataFrame:
    return bs.load_survey(["demo"]).buttons


def little_known(buttons: pd.DataFrame) -> list[int]:
    """Choose undated records, those without a size, and one of every seventh of the others."""
    odd = buttons["year_from"].isna() | buttons["diameter_mm"].isna()
    return [*odd.to_numpy().nonzero()[0], *range(0, len(buttons), 37)]


def test_every_kind_of_record_is_told_of(buttons: pd.DataFrame) -> None:
    periods = bs.schemes.period_scheme(SCHEME)
    places = little_known(buttons)
    assert buttons.iloc[places]["year_from"].isna().sum() >= 5
    for place in places:
        rarity = bs.study.trait_rarity(buttons, place, periods)
        told = [
            *bs.study.record_findings(buttons, place),
            *bs.study.rarity_findings(rarity),
            *bs.study.size_among_findings(bs.study.size_among(buttons, place, periods)),
            bs.study.nearest_sentence(bs.study.nearest_records(buttons, place)),
            bs.study.lacking_sentence(bs.study.lacking_fields(buttons, place)),
        ]
        assert all(sentence.endswith(".") for sentence in told)


@pytest.mark.parametrize("number", ["CA018"])
def test_an_undated_record_is_drawn(buttons: pd.DataFrame, number: str) -> None:
    place = bs.study.find_record(buttons, number, "")
    assert pd.isna(buttons["year_from"].iloc[place])
    rarity = bs.study.trait_rarity(buttons, place, bs.schemes.period_scheme(SCHEME))
    assert bs.draw.traits_figure(rarity, number, "a5-page", source="x").figure is not None
