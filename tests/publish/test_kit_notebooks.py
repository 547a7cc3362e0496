"""The kit's own notebooks run headlessly to the end, also on surveys that hold almost nothing."""

import json

import pytest

from buttonstudy.publish.report import make_report

SURVEYS = {
    "one record and nothing known": "No,Diam (mm),Date,Mould\n1,,,\n2,16,,\n",
    "a few buttons": (
        "No,Set,Recorder,Diam (mm),Date,Mould,Hole fill,Cover,Layers,Cover thickness,Hole (mm),Opened\n"
        "1,A,Ann Alder,16,c. 1840,wood,thread,silk,at least 2,thin,2.5,yes\n"
        "2,A,Ann Alder,16,c. 1840,wood,thread,silk,2,thin,2.5,yes\n"
        "3,B,Ben Birch,22.5,1860-1870,bone,none,<b>=velvet</b>,1,thick,1.5,yes\n"
        "4,,Ben Birch,13,,,,silk,,,,no\n"
    ),
    "twelve sets all the same": "No,Recorder,Diam (mm),Date,Mould,Hole fill,Layers,Opened\n"
    + "".join(f"{n},Ann Alder,16,1850,wood,thread,1,yes\n" for n in range(1, 13)),
    "no date and nothing opened": "No,Recorder,Cover,Mould,Opened\n"
    + "".join(f"{n},Ann Alder,silk,,no\n" for n in range(1, 13)),
}
NOTEBOOKS = ("sizes", "construction", "fills", "comparison")


@pytest.mark.parametrize("held", sorted(SURVEYS))
def test_every_notebook_finishes(tmp_path, held):
    survey = tmp_path / "survey.csv"
    survey.write_text(SURVEYS[held], encoding="utf-8")
    result = make_report([survey], tmp_path / "report")
    assert result.failures == ()
    for name in NOTEBOOKS:
        page = (result.folder / f"{name}.html").read_text(encoding="utf-8")
        assert "What this cannot say" in page
        assert "<b>=velvet" not in page
        executed = json.loads((result.folder / "notebooks" / f"{name}.ipynb").read_text("utf-8"))
        assert all(
            cell["execution_count"] for cell in executed["cells"] if cell["cell_type"] == "code"
        )
