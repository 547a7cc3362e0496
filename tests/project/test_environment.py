"""The places that name versions agree: pyproject.toml, environment.yml and the constraints."""

import importlib.metadata
import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]


def asked() -> dict[str, Requirement]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    lines = project["dependencies"] + project["optional-dependencies"]["test"]
    return {canonicalize_name(one.name): one for one in map(Requirement, lines)}


def constrained() -> dict[str, str]:
    lines = (ROOT / ".ci" / "constraints.txt").read_text().splitlines()
    pairs = (line.split("==") for line in lines if "==" in line)
    return {canonicalize_name(name): version for name, version in pairs}


def in_conda() -> dict[str, str]:
    text = (ROOT / "environment.yml").read_text()
    pairs = re.findall(r"^\s+- ([\w.-]+)={1,2}([\w.]+)$", text, re.MULTILINE)
    return {canonicalize_name(name): version for name, version in pairs if name != "python"}


def test_the_conda_environment_holds_what_the_project_asks_for_and_nothing_else():
    assert set(in_conda()) == set(asked())


@pytest.mark.parametrize("name", sorted(asked()))
def test_each_pinned_version_is_one_that_the_project_allows(name):
    assert asked()[name].specifier.contains(in_conda()[name])
    assert constrained()[name] == in_conda()[name]


def test_the_pinned_versions_are_the_ones_running_now():
    running = {name: importlib.metadata.version(name) for name in in_conda()}
    assert running == in_conda(), "install with -c .ci/constraints.txt, as README says"


def test_readme_and_ci_use_the_same_command():
    readme = (ROOT / "README.md").read_text()
    commands = re.findall(r"^python3 -m venv .*$", readme, re.MULTILINE)
    assert len(commands) == 2
    assert commands[0].endswith("buttonstudy report")
    assert commands[1].endswith("python -m pytest")
    assert "sed -n" in (ROOT / ".ci" / "run").read_text()
