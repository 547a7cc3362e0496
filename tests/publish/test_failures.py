from types import SimpleNamespace

import pytest

from buttonstudy.publish.failures import Failure, cell_place, plain_reason


def cell(kind, source="", **metadata):
    return SimpleNamespace(cell_type=kind, source=source, metadata=metadata)


CELLS = [
    cell("code"),
    cell("code", tags=["injected-parameters"]),
    cell("markdown", "# Sizes\n\nWords."),
    cell("markdown", "Text # no heading\n## By period"),
    cell("code"),
    cell("code"),
]
REASONS = [
    ("KeyError", "'colour'", "something called 'colour' was looked up and is not there"),
    (
        "ModuleNotFoundError",
        "No module named 'x'",
        "a package is missing (No module named 'x'); install it where the kit is installed, or the "
        "kit again",
    ),
    ("MemoryError", "", "the memory ran out"),
    (
        "DeadKernelError",
        "Kernel died",
        "its Python stopped suddenly, as happens when the memory runs out",
    ),
    ("SchemeError", "There is no scheme x.", "There is no scheme x"),
    ("IndexError", "", "a fault of the kind IndexError"),
    ("ValueError", "\x1b[31mred\x1b[0m", "red (ValueError)"),
]


@pytest.mark.parametrize(
    ("index", "place"),
    [
        (0, "at its code cell 1"),
        (4, "at its code cell 2 under “By period”"),
        (5, "at its code cell 3 under “By period”"),
    ],
)
def test_a_cell_is_named_by_its_heading_and_number(index, place):
    assert cell_place(CELLS, index) == place


@pytest.mark.parametrize(("name", "says", "reason"), REASONS)
def test_reasons_are_told_in_plain_words(name, says, reason):
    assert plain_reason(name, says) == reason


def test_a_failure_is_one_sentence():
    assert str(Failure("sizes", "at its code cell 2", "the memory ran out")) == (
        "The notebook sizes could not finish at its code cell 2: the memory ran out."
    )


@pytest.mark.parametrize("file", ["drawers.py", "drawers/__init__.py"])
@pytest.mark.parametrize("missing", ["drawers", "drawers.north"])
def test_a_module_beside_the_notebook_is_not_called_a_missing_package(tmp_path, file, missing):
    (tmp_path / file).parent.mkdir(exist_ok=True)
    (tmp_path / file).write_text("")
    says = f"No module named '{missing}'"
    told = plain_reason(
        "ModuleNotFoundError", says, {"far": tmp_path / "none", "beside it": tmp_path}
    )
    assert told.startswith("its module drawers lies beside it, and notebooks import nothing")
    assert told.endswith("import sys; sys.path.append('the folder')")
    assert str(tmp_path) not in told  # it goes into reports
    other = plain_reason("ModuleNotFoundError", "No module named 'drawer'", {"": tmp_path})
    assert other.startswith("a package is missing (No module named 'drawer')")
