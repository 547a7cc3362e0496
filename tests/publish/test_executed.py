import json

import pytest

from buttonstudy.publish.captions import CaptionList
from buttonstudy.publish.errors import PublishError
from buttonstudy.publish.executed import lost_figures, read_executed, tidy


def notebook(*cells, **metadata):
    return {"cells": list(cells), "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}


def shows(name, picture="iVBORw0="):
    record = {"kind": "figure", "name": name}
    data = {"image/png": picture} if picture else {}
    output = {"output_type": "display_data", "data": data, "metadata": {"buttonstudy": record}}
    return {"cell_type": "code", "metadata": {}, "source": "", "outputs": [output]}


def announce(folder, *names, saved=True):
    captions = CaptionList("sizes", folder)
    for name in names:
        captions.number(name, "Caption.", "Alt.")
        for kind in ("png", "pdf", "svg") if saved else ():
            (folder / "figures" / f"{name}.{kind}").write_bytes(b"x")


@pytest.mark.parametrize(
    ("cells", "saved", "lost"),
    [
        ([shows("sizes-a"), shows("sizes-b")], True, {}),
        ([shows("sizes-a")], True, {"sizes": ["sizes-b"]}),
        ([shows("sizes-a", picture=""), shows("sizes-b")], True, {"sizes": ["sizes-a"]}),
        ([shows("sizes-a"), shows("sizes-b")], False, {"sizes": ["sizes-a", "sizes-b"]}),
        ([], True, {"sizes": ["sizes-a", "sizes-b"]}),
    ],
)
def test_figures_that_were_announced_and_got_lost_are_named(tmp_path, cells, saved, lost):
    announce(tmp_path, "sizes-a", "sizes-b", saved=saved)
    (tmp_path / "sizes.ipynb").write_text(json.dumps(notebook(*cells)))
    assert lost_figures(tmp_path, [tmp_path / "sizes.ipynb", tmp_path / "none.ipynb"]) == lost


def test_a_tidied_notebook_holds_beside_its_report(tmp_path):
    root = tmp_path / ".report.buttonstudy-1234.new"
    path = root / "notebooks" / "a.ipynb"
    path.parent.mkdir(parents=True)
    source = (
        f'# Parameters\nsurveys = ["{root.as_posix()}/survey"]\noutputs = "{root.as_posix()}"\n'
    )
    cell = {
        "cell_type": "code",
        "id": "random",
        "metadata": {"tags": ["injected-parameters"], "papermill": {"duration": 0.1}},
        "source": source,
        "outputs": [],
    }
    path.write_text(json.dumps(notebook(cell, papermill={"input_path": str(root)})))
    tidy(path, root)
    (tidied,) = read_executed(path)["cells"]
    assert tidied["source"] == '# Parameters\nsurveys = ["../survey"]\noutputs = ""\n'
    assert tidied["id"] == "set-by-report"
    assert "papermill" not in path.read_text()
    assert root.name not in path.read_text()


def test_a_notebook_that_was_not_written_whole_is_told(tmp_path):
    path = tmp_path / "sizes.ipynb"
    path.write_text(json.dumps(notebook(shows("one")))[:40], encoding="utf-8")
    with pytest.raises(PublishError, match="What the notebook sizes gave was not written whole"):
        read_executed(path)
