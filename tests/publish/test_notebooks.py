import json

import pytest

from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.notebooks import (
    Parameter,
    check_known,
    choose_notebooks,
    notebooks_folder,
    read_notebook,
    read_parameters,
    set_parameters,
    typed_value,
)

# The first four are what papermill's own command line turns into other values (measured with
# papermill 2.7): 1912.1, 42, 191210 and 12000.0.
VALUES = [
    ("", "1912.10", "1912.10"),
    ("", "0042", "0042"),
    ("", "1912_10", "1912_10"),
    ("", "12E3", "12E3"),
    (5, "7", 7),
    (0.5, "2", 2.0),
    (True, "no", False),
    (False, "YES", True),
    (["a"], "cover_cut, back_finish", ["cover_cut", "back_finish"]),
    ([], "", []),
    ([1], "3,4", [3, 4]),
]
REFUSED = [
    (5, "2.5", "The parameter p takes a whole number, and '2.5' is none."),
    (0.5, "half", "The parameter p takes a number, and 'half' is none."),
    (True, "perhaps", "The parameter p takes yes or no, and 'perhaps' is none."),
]
NO_CHOICES = [
    "import os",
    "a = b",
    "a: int = 1 + x",
    "a, b = 1, 2",
    "a: int",
    "def f(): ...",
    "a = (",
]


def parameter(default):
    return Parameter("p", type(default), default, "")


@pytest.mark.parametrize(("default", "typed", "value"), VALUES)
def test_what_is_typed_becomes_the_declared_kind_of_value(default, typed, value):
    found = typed_value(parameter(default), typed)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(("default", "typed", "says"), REFUSED)
def test_what_is_no_such_value_is_refused(default, typed, says):
    with pytest.raises(CallError) as refused:
        typed_value(parameter(default), typed)
    assert str(refused.value) == says


def test_kinds_defaults_and_help_are_read():
    found = read_parameters(
        'surveys: list = ["demo"]  # survey files\n'
        'share: float = 1  # of the whole\n\nplain = "a#b"'
    )
    assert found == (
        Parameter("surveys", list, ["demo"], "survey files"),
        Parameter("share", float, 1, "of the whole"),
        Parameter("plain", str, "a#b", ""),
    )


@pytest.mark.parametrize("source", NO_CHOICES)
def test_a_parameters_cell_with_anything_else_is_refused_and_never_run(source):
    with pytest.raises(PublishError, match=r"parameters cell of a.ipynb cannot be read near"):
        read_parameters(source, "a.ipynb")


def test_an_unknown_parameter_is_refused_with_the_nearest(notebooks):
    chosen = choose_notebooks(["drawing"], notebooks)
    with pytest.raises(CallError, match=r"called 'garmnt'. Did you mean garment?"):
        check_known(chosen, ["garmnt"])
    with pytest.raises(CallError, match=r"outputs is set by the report itself"):
        check_known(chosen, ["outputs"])


def test_values_go_only_where_they_are_declared(notebooks):
    (waiting,) = choose_notebooks(["waiting"], notebooks)
    assert set_parameters(waiting, {"garment": "coat"}, {"outputs": "x", "period_scheme": "y"}) == {
        "outputs": "x"
    }


def test_notebooks_are_found_in_the_order_of_their_files(notebooks):
    assert [one.name for one in choose_notebooks((), notebooks)] == [
        "drawing",
        "failing",
        "waiting",
    ]
    assert choose_notebooks(["drawing"], notebooks)[0].title == "Drawing one figure"


def test_an_unknown_notebook_is_refused_with_the_nearest(notebooks):
    with pytest.raises(CallError) as refused:
        choose_notebooks(["drawng"], notebooks)
    assert str(refused.value) == "There is no notebook called 'drawng'. Did you mean drawing?"


def test_a_notebook_of_ones_own_is_taken_by_its_path(notebooks, tmp_path):
    own = tmp_path / "03_My Study.ipynb"
    own.write_text((notebooks / "drawing.ipynb").read_text(encoding="utf-8"), encoding="utf-8")
    (found,) = choose_notebooks([str(own)], notebooks)
    assert (found.name, found.path) == ("my-study", own)


@pytest.mark.parametrize("content", ["", "[]", "{}", json.dumps({"cells": [{}]})])
def test_what_is_no_notebook_is_told(tmp_path, content):
    (tmp_path / "a.ipynb").write_text(content)
    with pytest.raises(PublishError, match=r"a.ipynb is not a Jupyter notebook"):
        read_notebook(tmp_path / "a.ipynb")


def test_a_missing_notebook_is_told(tmp_path):
    with pytest.raises(PublishError, match=r"b.ipynb could not be opened"):
        choose_notebooks([str(tmp_path / "b.ipynb")])


def test_the_kits_notebooks_have_a_home():
    assert notebooks_folder().name == "notebooks"
