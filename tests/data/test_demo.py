"""The invented demo: it is made again the same, it is as its note says, its mistakes stand there.

Nothing here is evidence about real buttons. Whether the kit recovers the truth is asked where the
kit's parts are tested.
"""

import csv
import importlib.util
import io
import os
import subprocess
import sys
import zipfile
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from types import ModuleType

import pytest
from openpyxl import load_workbook
from python_calamine import CalamineWorkbook

from buttonstudy.schemes.findings import finding_kinds
from buttonstudy.schemes.tables import rows as scheme_rows
from buttonstudy.survey.load import load_survey

DATA = Path(__file__).parents[2] / "data"
DEMO = DATA / "demo"
SURVEYS = DEMO / "surveys"

TEXTS = (
    "ABOUT.txt",
    "truth.csv",
    "truth_shares.csv",
    "planted_problems.csv",
    "surveys/quillow.csv",
    "surveys/aldersay.csv",
)
WORKBOOKS = ("surveys/parvel.xlsx", "surveys/marchwane.ods")

# file, sheet, row of the headings, heading of the button numbers, column of the sizes
SHEETS = (
    ("parvel.xlsx", "Buttons", 4, "No.", "Size (ins)"),
    ("marchwane.ods", "Drawer 1", 1, "Button no.", "Diam. (mm)"),
    ("marchwane.ods", "Drawer 2", 3, "Button no.", "Diam. (mm)"),
    ("quillow.csv", "", 3, "Button", "Ø"),
    ("aldersay.csv", "", 1, "Button id", "Diameter mm"),
)

# planted mistake, the kind of problem that tells it; fractions are told as turned into dates
TOLD_AS = {
    "heading that nobody can know": "heading-unknown",
    "button number twice in a file": "id-twice",
    "date that cannot be read": "date-not-understood",
    "misspelt term": "term-unknown",
    "decimal comma lost: a size ten times too large": "size-too-large",
    "inside recorded for a button that was not opened": "inside-of-unopened",
    "unknown term": "term-unknown",
    "size without a unit": "size-no-unit",
    "button number in two files": "id-in-two-files",
    "range of years reversed": "date-reversed",
    "size readings disagree": "sizes-disagree",
    "date in the future": "date-future",
    "size of nothing": "size-zero",
}

Grid = list[list[object]]


def grid(file: str, sheet: str, folder: Path = SURVEYS) -> Grid:
    """Cells as they arrive, row 1 first, blanks as empty text."""
    path = folder / file
    if path.suffix != ".csv":
        cells = CalamineWorkbook.from_path(path).get_sheet_by_name(sheet)
        return [list(row) for row in cells.to_python(skip_empty_area=False)]
    encoding, separator = ("cp1252", ";") if file == "quillow.csv" else ("utf-8", ",")
    text = io.StringIO(path.read_text(encoding), newline="")
    return [list(row) for row in csv.reader(text, delimiter=separator)]


def table(name: str) -> list[dict[str, str]]:
    with (DEMO / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def shown(cell: object) -> str:
    return f"{cell:g}" if isinstance(cell, float) else str(cell)


def column(file: str, sheet: str, heading_row: int, heading: str) -> list[str]:
    cells = grid(file, sheet)
    place = cells[heading_row - 1].index(heading)
    return [shown(row[place]) if place < len(row) else "" for row in cells[heading_row:]]


@pytest.fixture(scope="module")
def generator() -> Iterator[ModuleType]:
    """`data/make_demo.py`, found by its path; its neighbours are found beside it."""
    before = set(sys.modules)
    sys.path.insert(0, str(DATA))
    spec = importlib.util.spec_from_file_location("make_demo", DATA / "make_demo.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    yield module
    sys.path.remove(str(DATA))
    for name in set(sys.modules) - before:
        if name.startswith("demo_"):
            del sys.modules[name]


def make_in_a_fresh_process(folder: Path, hash_seed: str) -> Path:
    subprocess.run(
        [sys.executable, str(DATA / "make_demo.py"), str(folder)],
        check=True,
        env={**os.environ, "PYTHONHASHSEED": hash_seed},
    )
    return folder


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_in_a_fresh_process(tmp_path_factory.mktemp("demo"), "1")


class TestMadeAgain:
    @pytest.mark.parametrize("name", TEXTS)
    def test_texts_are_the_committed_ones_byte_for_byte(self, made: Path, name: str) -> None:
        assert (made / name).read_bytes() == (DEMO / name).read_bytes()

    @pytest.mark.parametrize(("file", "sheet"), [place[:2] for place in SHEETS])
    def test_cells_are_the_committed_ones(self, made: Path, file: str, sheet: str) -> None:
        assert grid(file, sheet, made / "surveys") == grid(file, sheet)

    def test_workbooks_are_the_same_whenever_they_are_made(
        self, made: Path, tmp_path: Path
    ) -> None:
        make_in_a_fresh_process(tmp_path, "2")
        for name in WORKBOOKS:
            assert (tmp_path / name).read_bytes() == (made / name).read_bytes()
            with zipfile.ZipFile(made / name) as archive:
                assert {entry.date_time[0] for entry in archive.infolist()} == {2024}

    def test_nothing_but_what_is_made_lies_in_the_folder(self, made: Path) -> None:
        def names(folder: Path) -> set[str]:
            return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}

        assert names(DEMO) == names(made) == {*TEXTS, *WORKBOOKS}


class TestTruth:
    def test_there_are_about_400_buttons_in_about_220_sets(self) -> None:
        sets = Counter(button["set_key"] for button in table("truth.csv"))
        assert (sets.total(), len(sets)) == (400, 220)
        assert (min(sets.values()), max(sets.values())) == (1, 24)
        assert sum(size == 1 for size in sets.values()) > 110
        assert sum(6 <= size <= 12 for size in sets.values()) >= 10

    @pytest.mark.parametrize("place", SHEETS, ids=lambda place: f"{place[0]} {place[1]}")
    def test_every_record_has_its_truth_by_its_row(self, place: tuple) -> None:
        file, sheet, heading_row, number, size = place
        told = {
            int(button["row"]): button["button_id"]
            for button in table("truth.csv")
            if (button["file"], button["sheet"]) == (file, sheet)
        }
        numbers = column(file, sheet, heading_row, number)
        sizes = column(file, sheet, heading_row, size)
        written = {
            row: name
            for row, (name, of) in enumerate(zip(numbers, sizes), start=heading_row + 1)
            if of
        }
        assert told == written

    def test_careful_calipers_are_near_the_true_size(self) -> None:
        true = [b for b in table("truth.csv") if b["file"] == "aldersay.csv"]
        written = column("aldersay.csv", "", 1, "Diameter mm")
        for button, wording in zip(true, written):
            assert abs(float(wording) - float(button["diameter_mm"])) < 0.15

    def test_terms_are_preferred_terms_of_the_vocabulary(self) -> None:
        known = {(row["field"], row["term"]) for row in scheme_rows("vocabulary")}
        for button in table("truth.csv"):
            for field in {field for field, _ in known}:
                for term in button[field].split("; "):
                    assert term == "absent" or (field, term) in known

    def test_words_of_contributors_mean_what_the_vocabulary_says(
        self, generator: ModuleType
    ) -> None:
        known = {
            (row["field"], wording.casefold().replace("-", " ")): row["term"]
            for row in scheme_rows("vocabulary")
            for wording in (row["term"], *row["synonyms"].split("|"))
        }
        words = sys.modules["demo_words"]
        for hand in (words.PARVEL, words.MARCHWANE, words.QUILLOW):
            for field in hand.keys() - {"opened"}:
                for term, wordings in hand[field].items():
                    for wording in wordings:
                        if wording not in ("none", "no"):
                            assert known[field, wording.replace("-", " ")] == term

    def test_shares_are_those_of_the_buttons(self) -> None:
        sets = {button["set_key"]: button for button in table("truth.csv")}
        wood = {
            span: sum(
                "wood" in make["mould_material"].split("; ")
                for make in sets.values()
                if span[0] <= int(make["year"]) <= span[1]
            )
            for span in ((1780, 1799), (1880, 1899), (1780, 1899))
        }
        for row in table("truth_shares.csv"):
            span = int(row["year_from"]), int(row["year_to"])
            if row["trait"] == "mould_material=wood" and span in wood:
                assert int(row["sets_with"]) == wood[span]
                assert abs(float(row["share"]) - float(row["expected"])) < 0.2

    def test_effects_run_the_way_they_were_made(self) -> None:
        shares = {(r["trait"], r["year_from"], r["year_to"]): r for r in table("truth_shares.csv")}
        for trait, rises in (
            ("mould_material=wood", False),
            ("mould_material=metal", True),
            ("mould_material=pasteboard", True),
            ("cover_layers>=2", True),
        ):
            early = float(shares[trait, "1780", "1799"]["share"])
            late = float(shares[trait, "1880", "1899"]["share"])
            assert (late > early + 0.3) if rises else (late < early - 0.3)

    def test_the_opened_are_no_fair_sample(self) -> None:
        seen = Counter((b["cover_condition"], b["opened"]) for b in table("truth.csv"))
        shattered = seen["shattered", "not opened"] / seen["shattered", "opened"]
        sound = seen["sound", "not opened"] / seen["sound", "opened"]
        assert shattered < 0.5 < 3 < sound


class TestLayouts:
    def test_parvel_has_titles_blank_rows_and_notes(self) -> None:
        workbook = CalamineWorkbook.from_path(SURVEYS / "parvel.xlsx")
        assert workbook.sheet_names == ["Buttons"]
        assert workbook.get_sheet_by_name("Buttons").merged_cell_ranges == [((0, 0), (0, 7))]
        cells = grid("parvel.xlsx", "Buttons")
        filled = [any(cell != "" for cell in row) for row in cells]
        assert filled[:4] == [True, True, False, True]
        assert filled[4:-2].count(False) >= 6
        assert [sum(cell != "" for cell in row) for row in cells[-3:]] == [0, 1, 1]

    def test_parvel_hides_a_column_and_a_row_and_holds_fractions_turned_into_dates(self) -> None:
        sheet = load_workbook(SURVEYS / "parvel.xlsx")["Buttons"]
        headings = [cell.value for cell in sheet[4]]
        hidden = [name for name, column in sheet.column_dimensions.items() if column.hidden]
        assert [headings[ord(letter) - 65] for letter in hidden] == ["Thread"]
        assert sum(row.hidden for row in sheet.row_dimensions.values()) == 1
        dates = [cell for row in sheet.iter_rows(min_row=5) for cell in row if cell.is_date]
        assert len(dates) == 4
        assert {cell.number_format for cell in dates} == {"d-mmm"}
        assert {headings[cell.column - 1] for cell in dates} == {"Size (ins)"}

    def test_parvel_measures_in_sixteenths(self) -> None:
        sizes = column("parvel.xlsx", "Buttons", 4, "Size (ins)")
        bottoms = {size.split("/")[1].split()[0].strip('"') for size in sizes if "/" in size}
        assert bottoms == {"2", "4", "8", "16"}

    def test_marchwane_has_two_sheets_and_decimal_commas(self) -> None:
        book = CalamineWorkbook.from_path(SURVEYS / "marchwane.ods")
        assert book.sheet_names == ["Drawer 1", "Drawer 2"]
        for _, sheet, heading_row, _, size in SHEETS[1:3]:
            sizes = [of for of in column("marchwane.ods", sheet, heading_row, size) if of]
            halves = sum(of.endswith(",5") for of in sizes)
            assert all("," not in of or of.endswith(",5") for of in sizes)
            assert 0 < halves < len(sizes) / 2

    def test_quillow_is_windows_text_with_semicolons(self) -> None:
        data = (SURVEYS / "quillow.csv").read_bytes()
        with pytest.raises(UnicodeDecodeError):
            data.decode("utf-8")
        assert b"\r\n\r\nButton;Card;\xd8;Mould \xd8;Dated" in data
        assert data.count(b"\x96") > 20
        assert b";bone and turned wood;" in data
        assert b";= same stuff as the lining" in data

    def test_aldersay_is_plain_utf_8_with_three_units(self) -> None:
        text = (SURVEYS / "aldersay.csv").read_text("utf-8")
        assert text.startswith("Button id,Set id,Recorder,Diameter mm,Diameter in,Diameter lines")
        assert "°" in text
        assert "\r" not in text

    @pytest.mark.parametrize("place", SHEETS, ids=lambda place: f"{place[0]} {place[1]}")
    def test_every_sheet_says_that_it_is_invented(self, place: tuple) -> None:
        cells = [str(cell) for row in grid(place[0], place[1]) for cell in row]
        assert any(cell.startswith("Invented survey") for cell in cells)

    def test_the_note_says_that_all_is_invented(self) -> None:
        assert (DEMO / "ABOUT.txt").read_text("utf-8").startswith("All of this is invented.")


class TestPlanted:
    def test_each_stands_at_its_place(self) -> None:
        for planted in table("planted_problems.csv"):
            cells = grid(planted["file"], planted["sheet"])
            place = ord(planted["column"]) - 65
            heading_row = next(
                row
                for file, sheet, row, *_ in SHEETS
                if [file, sheet] == [planted["file"], planted["sheet"]]
            )
            assert cells[heading_row - 1][place] == planted["heading"]
            assert shown(cells[int(planted["row"]) - 1][place]) == planted["wording"]

    def test_all_kinds_are_there(self) -> None:
        kinds = Counter(planted["kind"] for planted in table("planted_problems.csv"))
        assert sum(count for kind, count in kinds.items() if kind.startswith("fraction")) == 4
        assert {kind for kind in kinds if not kind.startswith("fraction")} == {
            "heading that nobody can know",
            "button number twice in a file",
            "misspelt term",
            "date that cannot be read",
            "decimal comma lost: a size ten times too large",
            "inside recorded for a button that was not opened",
            "unknown term",
            "size without a unit",
            "range of years reversed",
            "button number in two files",
            "size readings disagree",
            "date in the future",
            "size of nothing",
        }

    def test_numbers_are_unique_but_for_the_two_planted(self) -> None:
        numbers = Counter(
            name
            for file, sheet, heading_row, number, size in SHEETS
            for name, of in zip(
                column(file, sheet, heading_row, number), column(file, sheet, heading_row, size)
            )
            if of
        )
        twice = {name for name, count in numbers.items() if count > 1}
        assert twice == {
            planted["wording"]
            for planted in table("planted_problems.csv")
            if planted["kind"].startswith("button number")
        }

    def test_all_are_told_at_their_place(self) -> None:
        problems = load_survey("demo").problems
        told = list(
            zip(
                problems["file"],
                problems["sheet"],
                problems["row"].astype("str"),
                problems["column"].str.partition(":")[0],
                problems["kind"],
            )
        )
        for planted in table("planted_problems.csv"):
            kind = TOLD_AS.get(planted["kind"], "fraction-became-date")
            place = planted["file"], planted["sheet"], planted["row"]
            here = {(column, found) for *at, column, found in told if tuple(at) == place}
            assert {(planted["column"], kind), ("", kind)} & here, planted

    def test_no_other_record_is_told_to_contradict_itself_or_others(self) -> None:
        problems = load_survey("demo").problems
        found = problems[problems["kind"].isin(list(finding_kinds()))]
        found = found[found["kind"] != "photos-not-there"]
        planted = {(one["file"], one["row"]) for one in table("planted_problems.csv")}
        # A number twice is told at both of its places; the other one is not planted.
        planted |= {("parvel.xlsx", "30"), ("aldersay.csv", "82")}
        assert set(zip(found["file"], found["row"].astype("str"))) <= planted

    def test_turned_fractions_give_their_size_back(self) -> None:
        for planted in table("planted_problems.csv"):
            if planted["kind"].startswith("fraction"):
                turned = date.fromisoformat(planted["wording"])
                assert f"fraction {turned.day}/{turned.month} turned" in planted["kind"]

    def test_the_closed_button_with_an_inside_is_truly_closed(self) -> None:
        planted = next(p for p in table("planted_problems.csv") if p["kind"].startswith("inside"))
        button = next(
            b
            for b in table("truth.csv")
            if all(b[name] == planted[name] for name in ("file", "sheet", "row"))
        )
        assert button["opened"] == "not opened"

    def test_found_inside_names_an_opened_button_that_is_larger(self) -> None:
        true = {b["button_id"]: b for b in table("truth.csv") if b["file"] == "aldersay.csv"}
        numbers = column("aldersay.csv", "", 1, "Button id")
        outers = column("aldersay.csv", "", 1, "Found inside")
        pairs = [(true[number], true[outer]) for number, outer in zip(numbers, outers) if outer]
        assert len(pairs) == 2
        for inner, outer in pairs:
            assert outer["opened"] == "opened"
            assert float(inner["diameter_mm"]) < float(outer["mould_diameter_mm"])
            assert int(inner["year"]) < int(outer["year"])

    def test_planted_terms_are_in_no_table(self) -> None:
        known = {row["variant"] for row in scheme_rows("spellings")}
        for row in scheme_rows("vocabulary"):
            known |= {row["term"], *row["synonyms"].split("|")}
        wordings = {
            planted["wording"]
            for planted in table("planted_problems.csv")
            if planted["kind"].endswith("term")
        }
        assert len(wordings) == 3
        assert not wordings & known
