"""Lends the tests of this folder the invented surveys that several of them share."""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

HERE = Path(__file__).parent


def _module(path: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[path.stem] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def adversarial() -> ModuleType:
    return _module(HERE / "adversarial.py")


@pytest.fixture(scope="session")
def simulation() -> ModuleType:
    return _module(HERE.parent / "simulate_coverage.py")
