"""A mapping file drafted from what was recognised, for the researcher to correct.

Each heading of each sheet gets a row with the field and unit it was taken for. Those that call for
a look are marked. Reading with the draft as it stands gives the same records as reading without.
"""

import pandas as pd

from buttonstudy.survey.headings import BY_HEADING, BY_MAPPING, BY_NEAR_SPELLING, stated_step
from buttonstudy.survey.mapping import NOT_USED

DRAFT_COLUMNS = (
    "heading",
    "field",
    "unit",
    "step",
    "prefix",
    "file",
    "sheet",
    "look",
    "column",
    "filled",
)
_LOOK = {
    BY_HEADING: "",
    BY_MAPPING: "",
    BY_NEAR_SPELLING: "taken from a near spelling: is it right?",
}
_UNKNOWN = "not known: carried through as it stands"
_AGAIN = "another column holds this field: carried through as it stands"


def draft_mapping(columns: pd.DataFrame, problems: pd.DataFrame) -> pd.DataFrame:
    """Draft a mapping file.

    Parameters
    ----------
    columns
        What each heading was taken for: ``survey.columns``.
    problems
        ``survey.problems``, which tell headings that claim a field another column holds.

    Returns
    -------
    pandas.DataFrame
        :data:`DRAFT_COLUMNS`, all texts but `filled`: what a mapping file holds, then what to
        look at (blank where the heading was recognised), the column's letter and how many cells
        are filled. Columns without a heading are left out: nothing can name them.

    Examples
    --------
    >>> columns = pd.DataFrame([("a.csv", "", "A", "No.", "button_id", "", "heading", 3),
    ...     ("a.csv", "", "B", "Drawer", "", "", "not known", 2)], columns=["file", "sheet",
    ...     "column", "heading", "field", "unit", "how", "filled"])
    >>> problems = pd.DataFrame({"file": [], "sheet": [], "wording": [], "kind": []})
    >>> draft_mapping(columns, problems)[["heading", "field", "look"]].values.tolist()[1]
    ['Drawer', 'not used', 'not known: carried through as it stands']
    """
    again = problems[problems["kind"] == "heading-twice"]
    twice = set(zip(again["file"], again["sheet"], again["wording"]))
    rows = []
    known = columns[columns["heading"] != ""].fillna("")
    for one in known.drop_duplicates(["file", "sheet", "heading"]).itertuples():
        unknown = _AGAIN if (one.file, one.sheet, one.heading) in twice else _UNKNOWN
        step = stated_step(str(one.heading)) if one.field else None
        rows.append(
            (
                one.heading,
                one.field or NOT_USED,
                one.unit,
                f"{step!r} mm" if step else "",
                "",
                one.file,
                one.sheet,
                _LOOK.get(str(one.how), "") if one.field else _mapped(str(one.how), unknown),
                one.column,
                one.filled,
            )
        )
    return pd.DataFrame(rows, columns=list(DRAFT_COLUMNS))


def _mapped(how: str, unknown: str) -> str:
    return "" if how == BY_MAPPING else unknown
