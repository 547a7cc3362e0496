import pandas as pd

from buttonstudy.study.evidence.labels import set_strata, set_texts

BUTTONS = pd.DataFrame(
    {
        "cover_material": ["silk", None, "wool", "linen", None],
        "cover_condition": ["worn", "worn", "sound", "sound", None],
    }
)
KEYS = pd.Series([1, 1, 0, 0, 2])


def test_a_set_is_called_by_all_that_its_buttons_say() -> None:
    assert set_texts(BUTTONS, KEYS, "cover_material").tolist() == ["linen / wool", "silk", ""]


def test_strata_join_several_columns_and_name_what_was_not_recorded() -> None:
    stratum, names = set_strata(BUTTONS, KEYS, ["cover_material", "cover_condition"])
    assert [names[place] for place in stratum] == [
        "linen / wool, sound",
        "silk, worn",
        "not recorded, not recorded",
    ]


def test_no_columns_make_one_stratum() -> None:
    stratum, names = set_strata(BUTTONS, KEYS, [])
    assert (stratum.tolist(), names) == ([0, 0, 0], [""])


def test_no_buttons_make_no_strata() -> None:
    stratum, names = set_strata(BUTTONS[:0], KEYS[:0], ["cover_material"])
    assert (stratum.tolist(), names) == ([], [])
