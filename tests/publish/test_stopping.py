"""Checks that a request to stop is not forgotten where its exception gets lost."""

import signal

import pytest

from buttonstudy.publish.running import run_notebooks
from buttonstudy.publish.stopping import go_on, stop_when_asked


@pytest.fixture(autouse=True)
def handlers():
    """Put the handlers back that pytest works with."""
    numbers = [signal.SIGINT, signal.SIGTERM]
    kept = [signal.getsignal(number) for number in numbers]
    signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    for number, handler in zip(numbers, kept):
        signal.signal(number, handler)
    stop_when_asked.__globals__["_asked"].clear()


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_request_that_got_lost_stops_the_next_piece_of_work(number, tmp_path) -> None:
    stop_when_asked()
    go_on()
    with pytest.raises(KeyboardInterrupt):
        signal.raise_signal(number)
    with pytest.raises(KeyboardInterrupt):  # as if a library had swallowed it
        run_notebooks([], tmp_path, tmp_path)
    stop_when_asked()
    go_on()


def test_signals_that_are_to_be_ignored_stay_so() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    stop_when_asked()
    signal.raise_signal(signal.SIGINT)
    go_on()
