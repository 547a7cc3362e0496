"""Messy and broken survey files made by chance, and what must hold for each of them.

Run it by hand: ``python tests/fuzz.py --seconds 1800 --to FOLDER [--only TARGET]``. It makes cells,
tables and broken files without end, and asks of each that nothing but the kit's own errors comes
up, that it is read in time and twice in the same way, that what was written is kept, and that
every row is in the records or among the problems. An input that breaks a promise is kept in
FOLDER with what was wrong; so is the input at hand, should the whole program die.

`tests/fuzz_guided.py` asks the same of inputs that a coverage-guided fuzzer makes.
"""

import argparse
import io
import random
import signal
import sys
import tempfile
import time
import traceback
import warnings
import zipfile
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

ROOT = Path(__file__).parents[1]
TODAY = date(2026, 1, 1)
FREELY = settings(
    max_examples=200,
    deadline=None,
    database=None,
    derandomize=False,
    phases=[Phase.generate, Phase.shrink],
    suppress_health_check=list(HealthCheck),
    report_multiple_bugs=False,
)
SECONDS_FOR_A_CELL, SECONDS_FOR_A_FILE = 2, 20
STATES = {"", "absent", "not examined", "unclear", "not recorded"}
HEADING_LIKE = (
    "No.", "Button no.", "Set", "Recorder", "Diam (mm)", "Diameter (in)", "Size [L]", "Height (cm)",
    "Mould diam (mm)", "Hole diam (mm)", "Date", "Date from", "Date to", "Mould", "Mold material",
    "Mould shape", "Hole fill", "Medium", "Opened", "Accepted", "Cover", "Layers", "Found inside",
    "Photos", "Notes", "Drawer", "file", "row", "=1+1", "", "Dimensions", "Cover condition",
)  # fmt: skip
PLAIN = (
    "", "1", "16", "5/8", "5/8 in", "12,5 mm", "15-16 mm", "26 L", "c. 1840", "1840s", "1820-60",
    "Victorian", "wood", "none", "no", "yes", "?", "all", "at least 2", "Total", "=1+1", "'=1+1",
    "@x", "-", "<b>x</b>", " ", "\t", "No.", "Date", "\N{EN DASH}", "é\n2", "\x00", "\x0b", "\ufeff",
    "a remark of some length about the buttons of my aunt", "../../x.png", "#REF!", "1e999", "NaN",
    "\u202eabc", "٣ mm", "½ in", "n/e", "x" * 3000, '"', "';--", "{{x}}", "$x$", "1" * 400,
)  # fmt: skip


def fits(promise: bool, *told: object) -> None:
    """Say which promise was broken."""
    if not promise:
        raise AssertionError(*told)


# What must hold for one cell.


def lengths(text: str) -> None:
    """Sizes: low, best and high in order, and nothing passed over in silence."""
    from buttonstudy.readings.blanks import blank_state
    from buttonstudy.readings.lengths.reading import read_lengths

    for unit in (None, "mm", "in", "lines"):
        one = read_lengths(text, unit)
        fits(one.text == text, "wording", one)
        fits(all(0 <= x.low <= x.best <= x.high for x in one.lengths), "order", one)
        fits(bool(one.lengths) != any(doubt.fatal for doubt in one.doubts) or not one.lengths, one)
        fits(bool(one.lengths or one.doubts or blank_state(text) or not _worded(text)), "lost", one)
        fits(one == read_lengths(text, unit), "twice", one)


def dates(text: str) -> None:
    """Dates: earliest before latest, and a doubt where nothing was read."""
    from buttonstudy.readings.dates.reading import read_date
    from buttonstudy.schemes.conventions import date_convention

    for name in ("buttonstudy", "thirds"):
        one = read_date(text, date_convention(name), TODAY)
        fits(one.text == text, "wording", one)
        if one.earliest is None and one.latest is None:
            fits(one.edtf == "", "edtf", one)
            told = any(doubt.fatal for doubt in one.doubts) or one.basis == "undated"
            fits(told or not text.strip(), "lost", one)
        else:
            fits(not any(doubt.fatal for doubt in one.doubts), "fatal", one)
            years = [year for year in (one.earliest, one.latest) if year is not None]
            fits(years == sorted(years), "order", one)
            fits(all(1 <= year <= TODAY.year for year in years), "range", one)
        fits(one == read_date(text, date_convention(name), TODAY), "twice", one)


def counts(text: str) -> None:
    """Counts: bounds in order, and a doubt where nothing was read."""
    from buttonstudy.readings.counts import read_count

    one = read_count(text)
    fits(one.text == text, "wording", one)
    fits(one.low is None or one.high is None or 0 <= one.low <= one.high, "order", one)
    fits(one.state in STATES | {"counted", "bounded"}, "state", one)
    fits(bool(one.state) or any(doubt.fatal for doubt in one.doubts), "lost", one)
    fits(one == read_count(text), "twice", one)


def terms(text: str) -> None:
    """Terms: a term, an unknown word or a state, for each field; a medium; whether opened."""
    from buttonstudy.readings.blanks import blank_state
    from buttonstudy.readings.opened import read_opened
    from buttonstudy.readings.terms.medium import read_medium
    from buttonstudy.readings.terms.reading import read_terms
    from buttonstudy.schemes import fields, vocabulary

    for field in [one.field for one in fields() if one.kind == "term"]:
        one = read_terms(text, field, vocabulary())
        fits(one.text == text, "wording", one)
        fits(bool(one.terms or one.unknown) != bool(one.state), "lost", one)
        fits(one.state in STATES, "state", one)
    fits(blank_state(text) in STATES, "blank", text)
    medium = read_medium(text, vocabulary())
    fits(medium == read_medium(text, vocabulary()), "twice", medium)
    opened = read_opened(text)
    fits(opened.text == text, "wording", opened)
    fits(not (opened.opened and any(doubt.fatal for doubt in opened.doubts)), "fatal", opened)


def headings(text: str) -> None:
    """Headings: a known field or none, whatever stands there."""
    from buttonstudy.survey.headings import field_of, recognise, stated_step
    from buttonstudy.survey.mapping import field_names

    field, _ = field_of(text)
    fits(field in ("", *field_names()), "field", field)
    stated_step(text)
    taken = recognise([text, "Button no.", text], ["A", "B", "C"], "f", "s", ())
    fits([one.heading for one in taken][0] == text, "wording", taken)


def _worded(text: str) -> bool:
    return any(sign.isalnum() for sign in text)


# What must hold for one file.


def sheets(data: bytes) -> None:
    """A file's sheets: read or told, and every filled row in a table or around one."""
    from buttonstudy.survey.files import read_file
    from buttonstudy.survey.problems import Problems
    from buttonstudy.survey.tables import find_tables

    path = _written(data, "survey.csv")
    problems = Problems(path.name)
    file = read_file(path, path.name, problems)
    fits(bool(file.sheets or problems.rows), "silence")
    for sheet in file.sheets:
        found = find_tables(sheet, [])
        placed = {row for row, _ in found.around} | set(found.repeated)
        for table in found.tables:
            placed |= {table.heading_row, table.heading_row + 1, *table.row_numbers}
        for number, row in enumerate(sheet.rows, sheet.first_row):
            filled = any(str(cell).strip() for cell in row)
            fits(not filled or number in placed, "row lost", number, row)


def surveys(data: bytes, name: str = "survey.csv") -> None:
    """A whole file: loaded, told, marked, drafted, exported, and read back."""
    import pandas as pd

    from buttonstudy.publish.checking import check_survey
    from buttonstudy.survey.load import load_survey

    path = _written(data, name)
    survey = load_survey(path)
    fits(path.read_bytes() == data, "the user's file was changed")
    records_hold(survey)
    problems_hold(survey, data)
    check_survey(survey)
    again = load_survey(path)
    pd.testing.assert_frame_equal(survey.buttons, again.buttons)
    pd.testing.assert_frame_equal(survey.problems, again.problems)
    written_hold(survey, path)


def records_hold(survey: object) -> None:
    """Ends of every size, date and count in order."""
    buttons = survey.buttons
    for name in buttons.columns:
        if name.endswith("_mm"):
            ends = [
                buttons[f"{name}{end}"]
                for end in ("_low", "", "_high")
                if f"{name}{end}" in buttons
            ]
            for one, other in zip(ends, ends[1:]):
                fits(not (one > other + 1e-9).fillna(False).any(), "order", name)
    fits(not (buttons["year_from"] > buttons["year_to"]).fillna(False).any(), "years")
    low, high = buttons["cover_layers_low"], buttons["cover_layers_high"]
    fits(not (low > high).fillna(False).any(), "layers")
    fits(buttons[["file", "row"]].notna().all(axis=None), "place of a record")


def problems_hold(survey: object, data: bytes) -> None:
    """Every problem has words, what to do, and its place where it has one."""
    problems = survey.problems
    for name in ("file", "problem", "what_to_do", "kind", "level"):
        fits(bool((problems[name].astype(str).str.strip() != "").all()), "empty", name)
    cells = problems[problems["column"] != ""]
    names = set(survey.columns["sheet"])
    fits(set(cells["sheet"]) <= names | {""}, "sheet", set(cells["sheet"]), names)
    fits(len(survey.buttons) > 0 or len(problems) > 0 or not data.strip(), "silence")


def written_hold(survey: object, path: Path) -> None:
    """What the kit writes of a survey comes back as it was."""
    import pandas as pd

    from buttonstudy.publish.archive import Statement, export_survey
    from buttonstudy.publish.drafting import write_draft
    from buttonstudy.publish.errors import PublishError
    from buttonstudy.publish.marking import write_marked
    from buttonstudy.survey.load import load_survey

    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        for call in (
            lambda: write_draft(survey, [path], str(place / "map.csv")),
            lambda: write_marked(survey, [path], place / "marked.xlsx"),
            lambda: export_survey(survey, place / "archive", Statement()),
        ):
            try:
                call()
            except PublishError as error:
                fits(str(error).endswith("."), error)
        if (place / "archive").is_dir():
            back = load_survey(place / "archive")
            pd.testing.assert_frame_equal(back.buttons, survey.buttons)
            pd.testing.assert_frame_equal(back.problems, survey.problems)
        if (place / "marked.xlsx").is_file():
            marked = load_survey(place / "marked.xlsx")
            fits(len(marked.buttons) == len(survey.buttons), "records of the marked copy")


@cache
def _scratch() -> Path:
    return Path(tempfile.mkdtemp(prefix="buttonstudy-fuzz-"))


def _written(data: bytes, name: str) -> Path:
    path = _scratch() / name
    path.write_bytes(data)
    return path


# Inputs made by chance.


@cache
def words() -> tuple[str, ...]:
    """Every word that the kit's tables know, and the museums' own texts where they are at hand."""
    import csv

    found = set(PLAIN) | set(HEADING_LIKE)
    for table in (ROOT / "buttonstudy" / "schemes" / "tables").glob("*.csv"):
        for row in csv.reader(table.read_text(encoding="utf-8").splitlines()):
            found |= {part for cell in row for part in cell.split("|") if len(part) < 60}
    museum = ROOT.parent / "shared" / "open-data" / "museum_buttons.csv"
    if museum.is_file():
        for row in csv.reader(museum.read_text(encoding="utf-8").splitlines()):
            found |= {cell for cell in row if len(cell) < 400}
    return tuple(sorted(found))


def cell(chance: random.Random) -> str:
    """Make one cell: words of the trade joined anyhow, or changed, or mere signs."""
    kind = chance.random()
    if kind < 0.3:
        return chance.choice(words())
    if kind < 0.7:
        parts = [chance.choice(words()) for _ in range(chance.randint(1, 5))]
        return chance.choice(["", " ", ", ", "; ", "/", "-", " x ", " or "]).join(parts)
    text = list(chance.choice(words()))
    for _ in range(chance.randint(1, 6)):
        at = chance.randint(0, len(text))
        sign = chr(chance.choice([chance.randint(0, 127), chance.randint(0, 0x2FFF), 0xBD, 0x2033]))
        text[at : at + chance.randint(0, 2)] = [sign] * chance.randint(0, 2)
    return "".join(text).encode("utf-8", "ignore").decode()


def grid(chance: random.Random) -> list[list[str]]:
    """Make a sheet: perhaps a title, headings, rows of many widths, blank rows, a sum."""
    width = chance.randint(1, 9)
    rows = [[cell(chance)] for _ in range(chance.choice([0, 0, 1, 3]))]
    rows.append([chance.choice(HEADING_LIKE) for _ in range(width)])
    for _ in range(chance.randint(0, 12)):
        wide = width if chance.random() < 0.8 else chance.randint(0, width + 3)
        rows.append([cell(chance) if chance.random() < 0.8 else "" for _ in range(wide)])
    return rows


def text_file(chance: random.Random) -> bytes:
    """Make a text table in one of the encodings and separators that are about."""
    import csv

    into = io.StringIO()
    csv.writer(
        into,
        delimiter=chance.choice(",;\t|"),
        lineterminator=chance.choice(["\n", "\r\n", "\r"]),
        quoting=chance.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
    ).writerows(grid(chance))
    codes = ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le", "utf-32", "mac-roman", "cp437"]
    data = into.getvalue().encode(chance.choice(codes), "replace")
    return broken(data, chance) if chance.random() < 0.3 else data


def workbook(chance: random.Random) -> bytes:
    """Make a workbook: cells of every kind, formats, merged areas, more sheets than one."""
    import xlsxwriter

    into = io.BytesIO()
    with warnings.catch_warnings(), xlsxwriter.Workbook(into, {"in_memory": True}) as book:
        warnings.simplefilter("ignore")
        forms = [
            book.add_format({"num_format": f}) for f in ("d-mmm", "# ?/?", '0 "mm"', "@", "yyyy")
        ]
        for number in range(chance.randint(1, 3)):
            sheet = book.add_worksheet(
                chance.choice(["", f"Drawer {number}", f"{number} & <x>'s"]) or None
            )
            left = chance.choice([0, 0, 0, 3])
            for at, row in enumerate(grid(chance), chance.choice([0, 0, 5])):
                for column, text in enumerate(row, left):
                    _put(sheet, at, column, text, chance, forms)
            if chance.random() < 0.2:
                top, wide = chance.randint(1, 5), left + chance.randint(0, 3)
                sheet.merge_range(
                    top, wide, top + chance.randint(1, 3), wide + chance.randint(0, 2), "16"
                )
    return into.getvalue()


def _put(sheet, at, column, text, chance, forms) -> None:
    kind = chance.random()
    form = chance.choice(forms) if chance.random() < 0.3 else None
    if kind < 0.7:
        sheet.write_string(at, column, text[:30_000], form)
    elif kind < 0.85:
        value = chance.choice([16, 0.625, 1e9, -3.5, 44000, 44000.5, 1e300, 1e-300, 0, 60, 2958466])
        sheet.write_number(at, column, value, form)
    elif kind < 0.9:
        sheet.write_boolean(at, column, True, form)
    elif kind < 0.95:
        sheet.write_formula(at, column, "=1/0", form, chance.choice(["#DIV/0!", "", 3, "x"]))
    else:
        sheet.write_blank(at, column, None, form)


def open_document(chance: random.Random) -> bytes:
    """Make a small .ods by hand, with repeats, merged cells and every type of value."""
    rows = []
    for row in grid(chance):
        cells = []
        for text in row:
            repeat = chance.choice(
                ["", "", "", f' table:number-columns-repeated="{chance.randint(0, 4)}"']
            )
            kind = chance.choice(
                ["string", "string", "float", "date", "percentage", "boolean", "time"]
            )
            value = {
                "float": f' office:value="{chance.choice(["16", "0.625", "1840", "16", "1e400", "x"])}"',
                "date": f' office:date-value="{chance.choice(["2021-08-05", "1840-01-01", "2021-08-05", "1840-01-01", "x", "0000-00-00"])}"',
                "percentage": ' office:value="0.5"',
                "boolean": ' office:boolean-value="true"',
                "time": ' office:time-value="PT16H00M00S"',
            }.get(kind, "")
            safe = _xml(text)
            cells.append(
                f'<table:table-cell{repeat} office:value-type="{kind}"{value}><text:p>{safe}</text:p>'
                "</table:table-cell>"
            )
        times = chance.choice(["", "", f' table:number-rows-repeated="{chance.randint(1, 3)}"'])
        rows.append(f"<table:table-row{times}>{''.join(cells)}</table:table-row>")
    body = f'<table:table table:name="One">{"".join(rows)}</table:table>'
    return ods(body)


MANIFEST = (
    '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    '<manifest:file-entry manifest:full-path="/" manifest:media-type='
    '"application/vnd.oasis.opendocument.spreadsheet"/></manifest:manifest>'
)


def ods(body: str) -> bytes:
    """Put tables into the least .ods that is one."""
    names = "".join(
        f' xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{short}:1.0"'
        for short in ("office", "table", "text")
    )
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content{names} office:version="1.2">'
        f"<office:body><office:spreadsheet>{body}</office:spreadsheet></office:body>"
        "</office:document-content>"
    )
    into = io.BytesIO()
    with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(
            "mimetype", "application/vnd.oasis.opendocument.spreadsheet", zipfile.ZIP_STORED
        )
        archive.writestr("META-INF/manifest.xml", MANIFEST)
        archive.writestr("content.xml", content)
    return into.getvalue()


def _xml(text: str) -> str:
    from xml.sax.saxutils import escape

    return escape("".join(sign for sign in text if sign >= " " or sign in "\t\n")[:5000])


@cache
def real_files() -> tuple[bytes, ...]:
    """The demo surveys, a template, and the museums' texts where they are at hand."""
    from buttonstudy.publish.template import write_template

    files = [path.read_bytes() for path in sorted((ROOT / "data" / "demo" / "surveys").iterdir())]
    with tempfile.TemporaryDirectory() as folder:
        files.append(write_template(Path(folder) / "t.xlsx").read_bytes())
    museum = ROOT.parent / "shared" / "open-data" / "museum_buttons.csv"
    return (*files, museum.read_bytes()[:20_000]) if museum.is_file() else tuple(files)


def broken(data: bytes, chance: random.Random) -> bytes:
    """Change a few bytes of a file, or of one part inside an archive, which stays an archive."""
    if data.startswith(b"PK") and chance.random() < 0.8:
        return _broken_inside(data, chance)
    found = bytearray(data)
    for _ in range(chance.choice([1, 1, 3, 20])):
        at = chance.randint(0, max(len(found) - 1, 0))
        how = chance.randint(0, 4)
        if how == 0:
            found[at : at + 1] = bytes([chance.randint(0, 255)])
        elif how == 1:
            del found[at : at + chance.choice([1, 4, 100])]
        elif how == 2:
            found[at:at] = chance.choice(
                [b'"', b"\x00", b"\xff\xfe", b"\n", b"<", b"&", b"9" * 30, b">"]
            )
        elif how == 3:
            some = found[at : at + chance.choice([3, 50, 500])]
            found[at:at] = some * chance.choice([1, 2, 40])
        else:
            del found[at:]
    return bytes(found)


def _broken_inside(data: bytes, chance: random.Random) -> bytes:
    into = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(into, "w") as new:
        names = old.namelist()
        hit = chance.choice(names)
        for name in names:
            part = old.read(name)
            if name == hit:
                if chance.random() < 0.1:
                    continue
                part = _swapped(part, chance) if chance.random() < 0.4 else broken(part, chance)
            new.writestr(name, part)
    return into.getvalue()


def _swapped(part: bytes, chance: random.Random) -> bytes:
    """Change a number or a quoted value of an XML part, so that it stays well formed."""
    import re

    marks = list(re.finditer(rb'"[^"<>]{1,40}"|>[^<>]{1,40}<', part))
    if not marks:
        return part
    mark = chance.choice(marks)
    value = chance.choice(
        [
            b"0",
            b"-1",
            b"99999999999",
            b"1e999",
            b"A1:XFD1048576",
            b"#REF!",
            b"x",
            b"",
            b"4294967296",
        ]
    )
    return part[: mark.start() + 1] + value + part[mark.end() - 1 :]


def broken_file(chance: random.Random) -> bytes:
    """Change a real file."""
    return broken(chance.choice(real_files()), chance)


def any_file(chance: random.Random) -> bytes:
    """Make a file of any kind."""
    make = chance.choice([text_file, workbook, open_document, broken_file])
    return make(chance)


TARGETS: dict[str, tuple[Callable[[random.Random], object], Callable[..., None]]] = {
    "lengths": (cell, lengths),
    "dates": (cell, dates),
    "counts": (cell, counts),
    "terms": (cell, terms),
    "headings": (cell, headings),
    "sheets": (any_file, sheets),
    "surveys": (any_file, surveys),
}


def told_once(error: BaseException) -> str:
    """Name a fault by its kind and where it came up, so that it is told once."""
    at = traceback.extract_tb(error.__traceback__)
    ours = [one for one in at if "buttonstudy" in one.filename] or at
    first = str(error.args[0])[:60] if isinstance(error, AssertionError) and error.args else ""
    return f"{type(error).__name__} {first} {Path(ours[-1].filename).name}:{ours[-1].lineno}"


def allowed(error: BaseException) -> bool:
    """Tell the kit's own errors, which carry a sentence."""
    from buttonstudy.publish.errors import PublishError
    from buttonstudy.schemes.tables import SchemeError
    from buttonstudy.survey.saved import SavedSurveyError

    return isinstance(error, PublishError | SchemeError | SavedSurveyError)


def in_time(check: Callable[..., None], found: object, seconds: int) -> None:
    """Ask one target of one input, and no longer than so many seconds."""

    def late(*_: object) -> None:
        raise TimeoutError(f"more than {seconds} s")

    signal.signal(signal.SIGPROF, late)
    signal.setitimer(signal.ITIMER_PROF, seconds)  # of the processor, which others use too
    try:
        check(found)
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def run(name: str, seconds: float, first: int, to: Path) -> int:
    """Ask one target of inputs made by chance until the time is over; give how many."""
    make, check = TARGETS[name]
    limit = SECONDS_FOR_A_FILE if name in ("sheets", "surveys") else SECONDS_FOR_A_CELL
    seen: set[str] = set()
    tried: list[bytes] = []

    def asked(chance: random.Random) -> None:
        found = make(chance)
        if time.monotonic() >= end:
            return
        data = found if isinstance(found, bytes) else found.encode("utf-8", "surrogatepass")
        (to / f"{name}-{first}.last").write_bytes(data)
        tried[:] = [data]
        counted[0] += 1
        try:
            in_time(check, found, limit)
        except Exception as error:
            if not allowed(error) and told_once(error) not in seen:
                raise

    end, batch, counted = time.monotonic() + seconds, first, [0]
    while time.monotonic() < end:
        try:
            seed(batch)(FREELY(given(st.randoms(use_true_random=False))(asked)))()
        except Exception as error:  # hypothesis ran the smallest input last
            seen.add(told_once(error))
            keep(to, name, f"{batch}", tried[0], error)
        batch += 1000
    return counted[0]


def keep(to: Path, name: str, number: str, data: bytes, error: BaseException) -> None:
    """Keep an input that broke a promise, with what was wrong."""
    place = to / f"{name}-{number}.bin"
    place.write_bytes(data)
    place.with_suffix(".txt").write_text(
        f"{told_once(error)}\n{data[:300]!r}\n" + "".join(traceback.format_exception(error)),
        encoding="utf-8",
        errors="replace",
    )
    print(f"{name}: {told_once(error)}  {data[:100]!r}", flush=True)


def main() -> None:
    """Run every target, or those named, in turn."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=60, help="for each target")
    parser.add_argument("--seed", type=int, default=1, help="below 1000")
    parser.add_argument("--to", type=Path, default=Path("fuzz-found"))
    parser.add_argument("--only", choices=TARGETS, action="append")
    asked = parser.parse_args()
    asked.to.mkdir(parents=True, exist_ok=True)
    warnings.simplefilter("error")
    for name in asked.only or TARGETS:
        tried = run(name, asked.seconds, asked.seed, asked.to)
        print(f"{name}: {tried} inputs, seed {asked.seed}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
