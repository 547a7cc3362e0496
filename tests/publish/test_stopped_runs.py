"""Runs that are killed, asked to end, out of disk or in each other's way, by real runs.

`tests/stopped_runs.py` says how, and does more by hand.
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="runs are forked and limited as Linux does it"
)
SCRIPT = Path(__file__).parents[1] / "stopped_runs.py"
WRITING = {"template", "card", "problems", "marked", "map", "export", "plate", "gauge", "section"}


def test_every_command_leaves_the_earlier_output_or_the_new_one_however_it_is_stopped():
    run = subprocess.run(
        [sys.executable, SCRIPT, "--few"], capture_output=True, text=True, check=False, timeout=300
    )
    told = {one["command"]: one for one in map(json.loads, run.stdout.splitlines())}
    assert set(told) == WRITING, run.stderr
    for name, one in told.items():
        assert one["amiss"] == [], name
        assert one["steps"] >= 5, name
        assert one["stopped"] >= 2, name
