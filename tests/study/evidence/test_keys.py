import numpy as np
import pandas as pd

from buttonstudy.study.evidence.keys import set_keys, shared_weights


def test_a_set_counts_within_its_file_and_a_button_without_one_is_its_own():
    buttons = pd.DataFrame(
        {
            "file": ["a", "b", "a", "a", "a"],
            "set_id": ["1", "1", "1", None, ""],
        },
        index=[10, 11, 12, 13, 14],
    )
    keys = set_keys(buttons)
    assert keys.to_dict() == {10: 0, 11: 1, 12: 0, 13: 2, 14: 3}


def test_ids_that_read_alike_when_joined_are_kept_apart():
    buttons = pd.DataFrame({"file": ["a", "a|1"], "set_id": ["1|1", "1"]})
    assert set_keys(buttons).tolist() == [0, 1]


def test_a_table_without_files_or_sets_has_each_button_alone():
    assert set_keys(pd.DataFrame({"thread": ["linen"] * 3})).tolist() == [0, 1, 2]


def test_a_sets_weight_is_shared_over_the_marked_buttons():
    has = np.array([True, True, False, False])
    assert shared_weights(np.array([0, 0, 0, 1]), has).tolist() == [0.5, 0.5, 0, 0]
