"""The command line, mostly without running a notebook."""

import subprocess
import sys

import pytest

from buttonstudy.cli import main

SURVEY = "Button no.,Diameter (mm)\n1,16\n2,15.9\n"
BAD = "Button no.,Diameter (mm)\n1,16\n2,big\n"
# What is slow to import must wait until a command needs it.
SLOW = ["pandas", "numpy", "matplotlib", "papermill", "nbformat", "scipy", "jinja2", "edtf"]


@pytest.fixture
def run(capsys):
    def call(*arguments):
        with pytest.raises(SystemExit) as ended:
            main([str(argument) for argument in arguments])
        told = capsys.readouterr()
        return ended.value.code, told.out, told.err

    return call


@pytest.fixture
def survey(tmp_path):
    path = tmp_path / "survey.csv"
    path.write_text(SURVEY)
    return path


# Names of recorders, or a wording that is no known term, need rapidfuzz.
NOT_TO_CHECK = {
    "papermill", "nbformat", "nbconvert", "matplotlib", "seaborn", "scipy", "statsmodels",
    "pyarrow.parquet", "pyarrow.dataset", "jinja2", "PIL", "xlsxwriter", "edtf", "rapidfuzz",
    "openpyxl",
}  # fmt: skip


def test_help_imports_nothing_slow():
    code = (
        "import sys, buttonstudy.cli as cli\n"
        "try: cli.main(['report', '--help'])\n"
        f"except SystemExit: print('IMPORTED', sorted(set({SLOW}) & set(sys.modules)))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "--periods SCHEME" in told.stdout
    assert told.stdout.endswith("IMPORTED []\n")


def test_check_needs_no_notebook_machinery(survey):
    code = (
        "import sys, buttonstudy.cli as cli\n"
        f"try: cli.main(['check', {str(survey)!r}])\n"
        f"except SystemExit: print('IMPORTED', {NOT_TO_CHECK} & set(sys.modules))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.endswith("IMPORTED set()\n")


def test_check_on_the_demo_needs_no_other_reader_of_workbooks():
    code = (
        "import sys, buttonstudy.cli as cli\n"
        "try: cli.main(['check', 'demo'])\n"
        f"except SystemExit: print('IMPORTED', {NOT_TO_CHECK - {'rapidfuzz'}} "
        "& set(sys.modules))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.endswith("IMPORTED set()\n")


def test_check_ends_with_0_only_if_nothing_is_wrong(run, survey, tmp_path):
    status, out, _ = run("check", survey)
    assert status == 0
    assert "2 button records in 2 sets from 1 survey file." in out
    (tmp_path / "bad.csv").write_text(BAD)
    status, out, _ = run("check", tmp_path / "bad.csv")
    assert status == 1
    assert "row 3: “big”" in out
    assert "All problems, one a row: add --problems FILE.csv" in out


def test_check_writes_all_problems(run, tmp_path):
    (tmp_path / "bad.csv").write_text(BAD)
    status, _, _ = run("check", tmp_path / "bad.csv", "--problems", tmp_path / "problems.csv")
    assert status == 1
    assert "big" in (tmp_path / "problems.csv").read_text(encoding="utf-8-sig")


def test_check_writes_what_every_wording_was_read_as(run, tmp_path):
    (tmp_path / "a.csv").write_text(
        "Button no.,Size (mm),Padding\n1,16,wool of a ewe\n2,=1+1,wool\n"
    )
    _, out, _ = run("check", tmp_path / "a.csv")
    assert "\n4 different wordings; what each was read as: add --wordings FILE.csv\n" in out
    for _ in range(2):  # an earlier table is replaced
        _, out, _ = run("check", tmp_path / "a.csv", "--wordings", tmp_path / "w.csv")
    where = f"{tmp_path / 'w.csv'}; words were passed over in 1 of them\n"
    assert f"\nWhat each wording was read as, 4 rows, is in {where}" in out
    lines = (tmp_path / "w.csv").read_text(encoding="utf-8-sig").splitlines()
    assert "padding,wool of a ewe,wool,ewe,1,a.csv,,2" in lines
    assert "diameter,'=1+1,,,1,a.csv,,3" in lines  # no formula
    status, _, err = run("check", tmp_path / "a.csv", "--wordings", tmp_path / "a.csv")
    assert status == 2
    assert "a.csv is no earlier table of wordings and was left alone" in err


def test_words_of_a_vocabulary_of_ones_own_are_not_passed_over(run, tmp_path):
    (tmp_path / "a.csv").write_text("Button no.,Size (mm),Padding\n1,16,wool of a ewe\n")
    (tmp_path / "own.csv").write_text("field,term,synonyms\npadding,wool,wool of a ewe\n")
    given = "check", tmp_path / "a.csv", "--vocabulary", tmp_path / "own.csv"
    _, out, _ = run(*given, "--wordings", tmp_path / "w.csv")
    assert "rows, is in" in out
    assert "passed over" not in out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["report", "missing.csv"], "missing.csv: there is no such file or folder."),
        (["report", "survey.csv", "surve.csv"], "surve.csv: there is no such file or folder. Did"),
        (["report", "survey.csv", "--notebook", "glass"], "There is no notebook called 'glass'."),
        (["report", "survey.csv", "--set", "size"], "--set takes NAME=VALUE, and 'size' is not"),
        (["report", "survey.csv", "--jobs", "0"], "0 is not in the range x>=1"),
        (["report", "survey.csv", "--to", "survey.csv"], "is a file. Choose another folder"),
        (["check", "survey.csv", "--dates", "victorian"], "victorian"),
        (["check", "survey.csv", "--mapping", "missing-map.csv"], "missing-map.csv"),
        (["button"], "Missing argument 'ID'"),
        (["button", "7", "survey.csv"], 'No button is called "7".'),
        (["button", "1", "survey.csv", "--in", "b.csv"], 'There is no button "1" in "b.csv".'),
        (["button", "1", "missing.csv"], "missing.csv: there is no such file or folder."),
        (["plate", "missing.csv", "--to", "p.pdf"], "missing.csv: there is no such file"),
        (["section", "1", "missing.csv", "--to", "s.pdf"], "missing.csv: there is no such"),
        (["export", "missing.csv", "--to", "out"], "missing.csv: there is no such file"),
        (["check"], "Missing argument 'SURVEY...'"),
        (["check", "empty"], "There is no survey file in empty."),
        (["report", "empty"], "There is no survey file in empty."),
        (
            ["report", "survey.csv", "--set", "figure_size=a3"],
            'There is no print size called "a3". Use one of: a5-column, a5-page, a4-column, a4-',
        ),
        (["section", "ZZ9", "--to", "zz.pdf"], 'No button is called "ZZ9".'),
        (["repot"], "No such command 'repot'."),
    ],
)
def test_a_call_that_cannot_work_gets_a_sentence_and_status_2(
    run, survey, tmp_path, monkeypatch, arguments, says
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "empty").mkdir()
    status, out, err = run(*arguments)
    assert status == 2
    assert says in err
    assert "Running" not in out
    assert "Traceback" not in err
    assert not (tmp_path / "reports").exists()


def test_what_nobody_foresaw_is_told_without_a_traceback(run, survey, monkeypatch):
    def fail(*arguments, **options):
        raise LookupError("deep inside")

    monkeypatch.setattr("buttonstudy.survey.load.load_survey", fail)
    status, _, err = run("check", survey)
    assert status == 2
    assert err.startswith("Something went wrong that the kit did not foresee (LookupError).")
    details = err.split(" in ")[-1].strip()
    with open(details) as file:  # noqa: PTH123
        assert "deep inside" in file.read()


def test_stopping_is_told(run, survey, monkeypatch):
    def stop(*arguments, **options):
        raise KeyboardInterrupt

    monkeypatch.setattr("buttonstudy.survey.load.load_survey", stop)
    status, _, err = run("check", survey)
    assert (status, err) == (130, "\nStopped. Nothing was left half-made.\n")


def test_one_button_is_asked_for_by_its_number(run, survey, tmp_path, monkeypatch):
    from buttonstudy.publish.report import ReportResult
    from buttonstudy.publish.sought import Sought

    asked = {}

    def make_report(surveys, to, **options):
        asked.update(options, surveys=surveys, to=to)
        return ReportResult(tmp_path / "page", ())

    monkeypatch.setattr("buttonstudy.publish.report.make_report", make_report)
    given = ("--in", "a.csv", "--periods", "decades", "--name", "Our drawers")
    status, out, _ = run("button", "1912/10", survey, *given)
    assert status == 0
    assert asked["name"] == "Our drawers"
    assert asked["sought"] == Sought("1912/10", "a.csv")
    assert asked["choices"].periods == "decades"
    assert out == f"The report is ready: {tmp_path / 'page' / 'one-button.html'}\n"


def test_a_newsletter_is_refused_for_a_figure_that_is_none(run, survey):
    status, _, told = run("newsletter", survey, "--figures", "sizes-heaping,size-clases")
    assert status == 2
    assert told == ("There is no figure called 'size-clases'. Did you mean sizes-size-classes?\n")


def test_a_newsletter_tells_what_it_holds_and_where_its_zip_is(run, survey, tmp_path, monkeypatch):
    from buttonstudy.publish.newsletter import making
    from buttonstudy.publish.report import ReportResult

    asked = {}

    def make(paths, to, **given):
        asked.update(given, paths=paths)
        return ReportResult(tmp_path, ())

    monkeypatch.setattr(making, "make_newsletter", make)
    monkeypatch.setattr(making, "remarks", lambda result: ["Two figures."])
    status, told, _ = run(
        "newsletter",
        survey,
        "--paper",
        "A4",
        "--no-names",
        "--periods",
        "decades",
        "--name",
        "Ours",
    )
    assert status == 0
    assert told == f"Two figures.\nThe newsletter pack is ready: {tmp_path / 'newsletter.zip'}\n"
    assert asked["name"] == "Ours"
    assert asked["wanted"] == making.PackWanted((), "column", "A4", "", names=False)
    assert asked["choices"].periods == "decades"


def test_a_failing_notebook_ends_with_1_and_says_where_all_is(run, survey, tmp_path, monkeypatch):
    from buttonstudy.publish.failures import Failure
    from buttonstudy.publish.report import ReportResult

    failure = Failure("sizes", "at its code cell 2", "the memory ran out")
    result = ReportResult(tmp_path / "survey-unfinished", (failure,))
    monkeypatch.setattr("buttonstudy.publish.report.make_report", lambda *a, **k: result)
    status, _, err = run("report", survey)
    assert status == 1
    assert err.splitlines()[0] == str(failure)
    assert f"What was made of it is in {result.folder}; an earlier report was left" in err


def test_a_template_is_written_once(run, tmp_path):
    path = tmp_path / "new.xlsx"
    status, out, _ = run("template", path, "--field", "diameter", "--unit", "lines")
    assert status == 0
    assert "is ready to be filled in" in out
    status, out, _ = run("check", path)
    assert status == 0
    assert "Diameter (lines)" in out
    before = path.read_bytes()
    status, _, err = run("template", path)
    assert status == 2
    assert "is already there and was left alone" in err
    assert path.read_bytes() == before


def test_a_card_is_written_on_a_paper_that_is_known(run, tmp_path):
    path = tmp_path / "card.pdf"
    assert run("card", path, "--paper", "A6")[0] == 2
    assert not path.exists()
    status, out, _ = run("card", path, "--paper", "a4")
    assert (status, path.read_bytes()[:5]) == (0, b"%PDF-")
    assert "Print it at actual size" in out


def test_check_writes_a_marked_copy(run, tmp_path):
    path = tmp_path / "bad.csv"
    path.write_text(BAD)
    status, out, _ = run("check", path, "--marked", tmp_path / "marked.xlsx")
    assert status == 1
    assert f"A marked copy is in {tmp_path / 'marked.xlsx'}" in out
    assert path.read_text() == BAD
    assert run("check", tmp_path / "marked.xlsx")[1].startswith("marked.xlsx: 2 button records")


def test_a_section_is_drawn_and_its_caption_told(run, survey, tmp_path):
    status, out, _ = run("section", "1", survey, "--to", tmp_path / "one.pdf")
    assert (status, (tmp_path / "one.pdf").read_bytes()[:5]) == (0, b"%PDF-")
    assert out.startswith("Cross-section of button 1, drawn 3 times actual size.")
    status, _, err = run("section", "9", survey, "--to", tmp_path / "nine.pdf")
    assert (status, (tmp_path / "nine.pdf").exists()) == (2, False)
    assert 'No button is called "9"' in err


def test_without_a_survey_what_is_drawn_is_said_to_be_invented(run, tmp_path):
    status, out, _ = run("section", "CA073", "--to", tmp_path / "one.pdf")
    assert status == 0
    assert out.startswith("No survey was named: the button is one of the invented demo surveys.\n")
    status, out, _ = run("plate", "--to", tmp_path / "plate.pdf", "--only", "CA073")
    assert (status, out.splitlines()[:2]) == (
        0,
        ["No survey was named: the plate shows the invented demo surveys.", "1 button on 1 page."],
    )


def test_a_section_of_a_number_in_two_files_says_how_to_name_the_one_meant(run, survey, tmp_path):
    other = tmp_path / "other.csv"
    other.write_text(SURVEY)
    status, _, err = run("section", "1", survey, other, "--to", tmp_path / "one.pdf")
    assert status == 2
    assert 'Say in which of them the one meant is. Add --in "survey.csv" for that one.' in err


def test_a_plate_and_a_gauge_are_written(run, survey, tmp_path):
    status, out, _ = run("plate", survey, "--to", tmp_path / "plate.pdf", "--only", "2")
    assert (status, out.splitlines()[0]) == (0, "1 button on 1 page.")
    status, out, _ = run("gauge", tmp_path / "gauge.pdf", "--paper", "A4")
    assert status == 0
    assert "Print it at actual size (100 %)." in out
    status, _, err = run("gauge", tmp_path / "gauge.pdf")
    assert status == 2
    assert "is already there and was left alone" in err


def test_an_export_is_written_and_read_like_the_survey(run, survey, tmp_path):
    folder = tmp_path / "archive"
    status, out, _ = run(
        "export", survey, "--to", folder, "--licence", "CC-BY-4.0", "--source", "Us"
    )
    assert status == 0
    assert out == f"2 button records are in {folder}\n"
    status, out, _ = run("check", folder)
    assert (status, out.splitlines()[0]) == (0, "survey.csv: 2 button records")
    assert run("export", survey, "--to", folder)[0] == 2
    out = run("export", survey, "--to", tmp_path / "own", "--licence", "BLAH")[1]
    assert out.splitlines()[1:] == [
        "BLAH is kept as written; it is no known licence name, such as CC-BY-4.0."
    ]
    assert "state it with --licence" in run("export", survey, "--to", tmp_path / "other")[1]


def test_map_drafts_a_table_to_read_with_and_leaves_an_earlier_one_alone(run, tmp_path):
    (tmp_path / "odd.csv").write_text("Button no.,Diam (mm),Stuff\n1,16,silk\n")
    draft = tmp_path / "map.csv"
    status, out, _ = run("map", tmp_path / "odd.csv", "--to", draft)
    assert status == 0
    assert out.endswith(
        f"says what 3 headings mean; 1 heading to look at (column look). Correct it, and read with "
        f"--mapping {draft}\n"
    )
    text = draft.read_text("utf-8-sig").replace("Stuff,not used", "Stuff,cover_material")
    draft.write_text(text, "utf-8")
    assert (
        "cover material (by mapping file)"
        in run("check", tmp_path / "odd.csv", "--mapping", draft)[1]
    )
    status, _, err = run("map", tmp_path / "odd.csv", "--to", draft)
    assert status == 2
    assert "already there" in err
    assert draft.read_text("utf-8") == text


def test_what_is_accepted_is_not_told_and_no_longer_counts(run, tmp_path):
    (tmp_path / "closed.csv").write_text("No,Diam (mm),Mould,Opened\n1,16,wood,no\n")
    status, out, _ = run("check", tmp_path / "closed.csv")
    assert status == 1
    assert "[inside-of-unopened]" in out
    table = tmp_path / "accepted.csv"
    table.write_text("file,row,kind,note\nclosed.csv,2,inside-of-unopened,seen through a tear\n")
    status, out, _ = run("check", tmp_path / "closed.csv", "--accepted", table)
    assert status == 0
    assert "is accepted and not told again (inside-of-unopened 1)" in out
