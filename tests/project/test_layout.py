"""The layout shows the flow: each part imports only from the parts before it."""

import ast
import json
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "buttonstudy"
MAY_IMPORT = {
    "schemes": {"schemes"},
    "readings": {"readings", "schemes"},
    "survey": {"survey", "readings", "schemes"},
    "study": {"study", "schemes"},
    "draw": {"draw", "study", "schemes"},
    "publish": {"publish", "draw", "study", "survey", "readings", "schemes"},
}
VISIBLE = {
    "README.md",
    "DEVELOPERS.md",
    "environment.yml",
    "notebooks",
    "buttonstudy",
    "data",
    "tests",
    "reports",
    "pyproject.toml",
}
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))


def imported(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("buttonstudy."):
            yield node.module.split(".")[1]
        elif isinstance(node, ast.Import):
            for name in node.names:
                if name.name.startswith("buttonstudy."):
                    yield name.name.split(".")[1]


@pytest.mark.parametrize("part", sorted(MAY_IMPORT))
def test_imports_run_one_way(part):
    files = list((PACKAGE / part).rglob("*.py"))
    assert files
    for path in files:
        assert set(imported(path)) <= MAY_IMPORT[part], path


def test_nothing_else_is_visible_at_the_top():
    import subprocess

    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    ).stdout.split()
    if not listed:
        pytest.skip("not a git checkout")
    top = {name.split("/")[0] for name in listed}
    assert {name for name in top if not name.startswith(".")} <= VISIBLE


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_notebooks_hold_no_outputs_and_no_logic(path):
    notebook = json.loads(path.read_text(encoding="utf-8"))
    cells = [cell for cell in notebook["cells"] if cell["cell_type"] == "code"]
    assert notebook["cells"][0]["cell_type"] == "markdown"
    assert cells[0]["metadata"]["tags"] == ["parameters"]
    logic = (
        ast.FunctionDef | ast.ClassDef | ast.For | ast.While | ast.If | ast.Lambda | ast.ListComp
    )
    for cell in cells:
        assert cell["outputs"] == []
        assert cell["execution_count"] is None
        tree = ast.parse("".join(cell["source"]))
        assert not [node for node in ast.walk(tree) if isinstance(node, logic)]
        assert len(tree.body) <= (16 if "parameters" in cell["metadata"].get("tags", []) else 10)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_every_parameter_of_a_notebook_is_explained(path):
    notebook = json.loads(path.read_text(encoding="utf-8"))
    cell = next(cell for cell in notebook["cells"] if cell["cell_type"] == "code")
    for line in "".join(cell["source"]).splitlines():
        assert re.fullmatch(r"\w+: (str|int|float|bool|list) = .+  # .+", line), line


def test_what_several_notebooks_ask_for_has_one_default():
    """The newsletter's numbers are the report's only if both take the same for granted."""
    defaults = {}
    for path in NOTEBOOKS:
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        (cell,) = [one for one in cells if one["metadata"].get("tags") == ["parameters"]]
        for node in ast.parse("".join(cell["source"])).body:
            defaults.setdefault(node.target.id, set()).add(ast.unparse(node.value))
    assert {name for name, values in defaults.items() if len(values) > 1} == {"figure_size"}
    for name in ("4_comparison", "6_newsletter"):
        assert "compare: list" in (ROOT / "notebooks" / f"{name}.ipynb").read_text("utf-8")
