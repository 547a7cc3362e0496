import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.places import new_file


def test_a_new_file_in_an_existing_folder_may_be_written(tmp_path):
    assert new_file(str(tmp_path / "a.XLSX"), ".xlsx") == tmp_path / "a.XLSX"


REFUSED = [
    ("kept.xlsx", "kept.xlsx is already there and was left alone. Name another file"),
    ("new.ods", "new.ods: the name must end with .xlsx."),
    ("none/new.xlsx", "There is no folder .*none. Make it first, or choose another."),
    ("folder.xlsx", "folder.xlsx is a folder. Add the name of a file."),
]


@pytest.mark.parametrize(("name", "says"), REFUSED)
def test_what_stands_in_the_way_is_said(tmp_path, name, says):
    (tmp_path / "kept.xlsx").write_bytes(b"work of weeks")
    (tmp_path / "folder.xlsx").mkdir()
    with pytest.raises(CallError, match=says):
        new_file(str(tmp_path / name), ".xlsx")
    assert (tmp_path / "kept.xlsx").read_bytes() == b"work of weeks"
