"""Checks how differences are worded in sets of every ten."""

import re

import numpy as np
import pytest

from buttonstudy.study.comparison.tens import possible_of_ten, span_of_ten

ENDS = np.unique(
    np.round(np.concatenate([np.linspace(-1, 1, 81), np.linspace(-0.13, 0.13, 53)]), 6)
)


def _told(span: str) -> list[float]:
    return [
        float(end.replace("above 0", "0").replace("below 0", "0").replace("−", "-"))
        for end in span.split(" to ")
    ]


def test_a_told_interval_is_never_narrower_than_the_computed_one() -> None:
    for low in ENDS:
        for high in ENDS[ENDS >= low]:
            least, most = _told(span_of_ten(low, high))
            assert least <= 10 * low + 1e-6
            assert most >= 10 * high - 1e-6
            assert most - 10 * high < 1
            assert 10 * low - least < 1


@pytest.mark.parametrize("span", [(0.07, 0.64), (-0.71, -0.03), (0.0, 0.303), (0.001, 0.004)])
def test_sentences_and_tables_tell_the_same_numbers(span: tuple[float, float]) -> None:
    said = possible_of_ten(*span).replace("none", "0").replace("just over 0", "0")
    told = sorted(abs(end) for end in _told(span_of_ten(*span)))
    assert [float(number) for number in re.findall(r"[\d.]+", said)] == told


def test_every_sentence_has_two_whole_ends() -> None:
    for low in ENDS:
        for high in ENDS[ENDS >= low]:
            said = possible_of_ten(low, high)
            words = r"(none|just over 0|[\d.]+)( fewer)? to (0\.[1-9]|[1-9]|10) (more|fewer)"
            assert re.fullmatch(words, said) or (low == high == 0 and said == "nothing else")


def test_what_only_arithmetic_keeps_from_nought_is_nought():
    almost = 0.3 - 0.1 - 0.2  # -2.8e-17
    assert almost < 0
    assert possible_of_ten(almost, 0.3) == possible_of_ten(0.0, 0.3) == "none to 3 more"
    assert span_of_ten(almost, 0.3) == "0 to +3"
    assert possible_of_ten(almost, -almost) == "nothing else"
