"""Finding notebooks, and reading what each lets its reader choose.

A notebook's first code cell is tagged ``parameters`` and holds one choice a line::

    period_scheme: str = "british-reigns"  # which periods to count by

The cell is read as Python text, never run. What a researcher sets on the command line is turned
into the declared kind of value, so that a number such as ``1912.10`` stays the text that it is.
"""

import ast
import json
import re
import tokenize
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.names import safe_name
from buttonstudy.publish.suggesting import suggestion

__all__ = [
    "SET_BY_REPORT",
    "Notebook",
    "Parameter",
    "Value",
    "choose_notebooks",
    "notebooks_folder",
    "read_notebook",
    "read_parameters",
    "set_parameters",
    "typed_value",
]

Value = str | int | float | bool | list[object] | None

SET_BY_REPORT = ("surveys", "outputs")
"""Parameters that a report sets itself."""

_ASKING = ("button", "figures")
"""Parameters without which a notebook has nothing to be about."""

_KINDS = {"str": str, "int": int, "float": float, "bool": bool, "list": list}
_YES_NO = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}
_ASKS_FOR = {int: "a whole number", float: "a number", bool: "yes or no"}


@dataclass(frozen=True, slots=True)
class Parameter:
    """One choice that a notebook offers: its kind, what it is at first, and a word of help."""

    name: str
    kind: type
    default: Value
    help: str


@dataclass(frozen=True, slots=True)
class Notebook:
    """One notebook of the kit, or a researcher's own."""

    path: Path
    name: str
    title: str
    parameters: tuple[Parameter, ...]

    @property
    def only_when_asked(self) -> bool:
        """Say whether it asks for a button or for figures, and so is no part of every report."""
        return any(parameter.name in _ASKING for parameter in self.parameters)


def notebooks_folder() -> Path:
    """Return the kit's notebooks: those of the checkout, else those that came with the package."""
    package = Path(__file__).parent.parent
    checkout = package.parent / "notebooks"
    return checkout if any(checkout.glob("*.ipynb")) else package / "kit" / "notebooks"


def choose_notebooks(
    chosen: Iterable[str] = (), folder: Path | None = None
) -> tuple[Notebook, ...]:
    """Return the notebooks to run, in the order of their file names.

    Parameters
    ----------
    chosen
        Names of notebooks of the kit, or paths of a researcher's own; empty for all of the kit
        that are part of every report.
    folder
        Where to look instead of the kit's own folder.

    Raises
    ------
    CallError
        If a name is not known; the message suggests the nearest.
    """
    found = [read_notebook(path) for path in sorted((folder or notebooks_folder()).glob("*.ipynb"))]
    if not chosen:
        if not found:
            raise PublishError("The kit's notebooks are not there. Install the kit again.")
        return tuple(notebook for notebook in found if not notebook.only_when_asked)
    known = {notebook.name: notebook for notebook in found}
    wanted: dict[str, Notebook] = {}
    for words in chosen:
        path = Path(words)
        notebook = read_notebook(path) if path.suffix == ".ipynb" else known.get(safe_name(words))
        if notebook is None:
            raise CallError(f"There is no notebook called {words!r}. {suggestion(words, known)}")
        if wanted.setdefault(notebook.name, notebook).path != notebook.path:
            raise CallError(f"Two notebooks are called {notebook.name!r}. Rename one of them.")
    return tuple(wanted.values())


def read_notebook(path: Path) -> Notebook:
    """Read a notebook's title and parameters without running it.

    A leading number in its file name only puts it in order and is no part of its name.

    Raises
    ------
    PublishError
        If the file is missing or is no notebook.
    """
    try:
        content = json.loads(path.read_text(encoding="utf-8"))
        cells = [(cell["cell_type"], "".join(cell["source"]), cell) for cell in content["cells"]]
    except OSError as error:
        raise PublishError(f"The notebook {path} could not be opened.") from error
    except (ValueError, KeyError, TypeError) as error:
        raise PublishError(f"{path} is not a Jupyter notebook.") from error
    name = safe_name(re.sub(r"^\d+[-_ ]+", "", path.stem), "notebook")
    headings = (re.match(r"#\s+(.+)", text) for kind, text, _ in cells if kind == "markdown")
    title = next((heading[1].strip() for heading in headings if heading), name)
    parameters = next(
        (
            text
            for kind, text, cell in cells
            if kind == "code" and "parameters" in cell.get("metadata", {}).get("tags", [])
        ),
        "",
    )
    return Notebook(path.absolute(), name, title, read_parameters(parameters, path.name))


def read_parameters(source: str, file: str = "the notebook") -> tuple[Parameter, ...]:
    """Read a parameters cell.

    Parameters
    ----------
    source
        The cell's text: assignments of plain values, each with a kind and a comment.
    file
        The notebook's file name, for messages.

    Raises
    ------
    PublishError
        If the cell holds anything but assignments of plain values.

    Examples
    --------
    >>> read_parameters('bands: int = 5  # size bands')
    (Parameter(name='bands', kind=<class 'int'>, default=5, help='size bands'),)
    """
    try:
        statements = ast.parse(source).body
        comments = _comments(source)
        return tuple(_parameter(statement, comments) for statement in statements)
    except (SyntaxError, ValueError, tokenize.TokenError) as error:
        line = getattr(error, "lineno", None) or 1
        raise PublishError(
            f"The parameters cell of {file} cannot be read near its line {line}. "
            "Write one choice a line, such as: bands: int = 5  # how many size bands"
        ) from error


def set_parameters(
    notebook: Notebook, texts: Mapping[str, str], values: Mapping[str, Value] | None = None
) -> dict[str, Value]:
    """Return the values for those parameters that a notebook declares.

    Parameters
    ----------
    notebook
        The notebook to run.
    texts
        What the researcher set, as typed.
    values
        Ready values, which are passed on where the notebook declares them.
    """
    declared = {parameter.name: parameter for parameter in notebook.parameters}
    given = {name: value for name, value in (values or {}).items() if name in declared}
    typed = {
        name: typed_value(declared[name], text) for name, text in texts.items() if name in declared
    }
    return given | typed


def typed_value(parameter: Parameter, text: str) -> Value:
    """Turn what was typed into the parameter's kind of value.

    Raises
    ------
    CallError
        If it is no such value.

    Examples
    --------
    >>> typed_value(Parameter("garment", str, "", ""), "1912.10")
    '1912.10'
    >>> typed_value(Parameter("traits", list, [], ""), "cover_cut, back_finish")
    ['cover_cut', 'back_finish']
    """
    try:
        if parameter.kind is bool:
            return _YES_NO[text.strip().lower()]
        if parameter.kind is list:
            return _typed_list(parameter, text)
        value: Value = parameter.kind(text)
    except (ValueError, KeyError) as error:
        asked = _ASKS_FOR.get(parameter.kind, "another value")
        raise CallError(
            f"The parameter {parameter.name} takes {asked}, and {text!r} is none."
        ) from error
    return value


def check_known(notebooks: Iterable[Notebook], names: Iterable[str]) -> None:
    """Refuse names that no notebook declares, and those that a report sets itself.

    Raises
    ------
    CallError
        With the nearest known name.
    """
    known = {parameter.name for notebook in notebooks for parameter in notebook.parameters}
    for name in names:
        if name in SET_BY_REPORT:
            raise CallError(f"The parameter {name} is set by the report itself. Leave it out.")
        if name not in known:
            raise CallError(
                f"None of these notebooks has a parameter called {name!r}. "
                f"{suggestion(name, known - set(SET_BY_REPORT))}"
            )


def _typed_list(parameter: Parameter, text: str) -> list[object]:
    items = [item.strip() for item in text.split(",") if item.strip()]
    default = parameter.default if isinstance(parameter.default, list) else []
    kind = type(default[0]) if default else str
    return [typed_value(Parameter(parameter.name, kind, None, ""), item) for item in items]


def _parameter(statement: ast.stmt, comments: Mapping[int, str]) -> Parameter:
    match statement:
        case ast.AnnAssign(
            target=ast.Name(id=name), annotation=annotation, value=ast.expr() as value
        ):
            words = annotation.id if isinstance(annotation, ast.Name) else ""
        case ast.Assign(targets=[ast.Name(id=name)], value=value):
            words = ""
        case _:
            raise SyntaxError("not an assignment", ("", statement.lineno, 0, ""))
    default = ast.literal_eval(value)
    kind = _KINDS.get(words) or _KINDS.get(type(default).__name__, str)
    return Parameter(name, kind, default, comments.get(statement.end_lineno or 0, ""))


def _comments(source: str) -> dict[int, str]:
    tokens = tokenize.generate_tokens(StringIO(source).readline)
    return {
        token.start[0]: token.string.lstrip("# ").strip()
        for token in tokens
        if token.type == tokenize.COMMENT
    }
