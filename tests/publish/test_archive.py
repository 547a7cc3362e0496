"""The archive, judged by the Data Package standard's own validator and read back by the kit."""

import csv
import json
import re
from pathlib import Path

import frictionless
import pandas as pd
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import buttonstudy as bs
from buttonstudy.publish.archive import Statement, export_survey, licence_remark
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.own_tables import KEPT_IN, kept_tables, own_frame, own_tables
from buttonstudy.publish.saving import save_survey
from buttonstudy.schemes import SchemeError, fields
from buttonstudy.survey.exported import read_exported_vocabulary
from buttonstudy.survey.load import DEMO, demo_folder
from buttonstudy.survey.saved import TABLES, SavedSurveyError

SAID = Statement("An invented survey", "CC0-1.0", ("Invented for a demonstration.", "Aldersay"))
FORMULAS = (
    'Button no.,Diameter (mm),Notes,=Shelf\n1,16,=1+1,@a\n2,15,"\'-x",\n3,14,"a\rb\n\tc",007\n'
)


@pytest.fixture(scope="module")
def demo():
    return bs.load_survey(DEMO)


@pytest.fixture(scope="module")
def archive(demo, tmp_path_factory):
    return export_survey(demo, tmp_path_factory.mktemp("archive") / "demo", SAID)


@pytest.fixture
def small(tmp_path):
    path = tmp_path / "small.csv"
    path.write_bytes(FORMULAS.encode())
    return bs.load_survey(path)


def described(folder):
    return json.loads((folder / "datapackage.json").read_text(encoding="utf-8"))


def assert_equal(ours, theirs):
    for name in TABLES:
        pd.testing.assert_frame_equal(getattr(ours, name), getattr(theirs, name))
    assert ours.settings == theirs.settings


def test_the_standards_validator_finds_nothing_wrong(tmp_path):
    survey = bs.load_survey(demo_folder() / "aldersay.csv")
    folder = export_survey(survey, tmp_path / "out", SAID)
    report = frictionless.validate(str(folder / "datapackage.json"))
    assert report.flatten(["type", "message"]) == []
    assert {task.name for task in report.tasks} == {
        *(*TABLES, "buttons-parquet", "wordings", "vocabulary"),
    }


def test_the_validator_sees_a_changed_cell(small, tmp_path):
    folder = export_survey(small, tmp_path / "out", SAID)
    path = folder / "buttons.csv"
    path.write_bytes(path.read_bytes().replace(b"16.0", b"61.0"))
    report = frictionless.validate(str(folder / "datapackage.json"))
    assert "hash-count" in [kind for (kind,) in report.flatten(["type"])]


def test_the_demo_exported_and_loaded_again_is_the_same(demo, archive):
    assert_equal(demo, bs.load_survey(archive))


def test_the_parquet_file_holds_the_same_records(demo, archive):
    pd.testing.assert_frame_equal(demo.buttons, pd.read_parquet(archive / "buttons.parquet"))


def test_another_reader_sees_the_same_values(demo, archive):
    resource = frictionless.Package(str(archive / "datapackage.json")).get_resource("buttons")
    for theirs, ours in zip(resource.read_rows(), demo.buttons.itertuples()):
        assert theirs["button_id"] == ours.button_id
        for name in ("diameter_mm", "year_from", "cover_layers_low", "sizes_agree"):
            value, read = getattr(ours, name), theirs[name]
            assert (read is None) == pd.isna(value)
            assert read is None or float(read) == float(value)


CELL = st.text(alphabet="=+-@'\",;ab1 \n\r\té釦", max_size=6)


@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(st.tuples(CELL, CELL, CELL), min_size=20, max_size=40), CELL)
def test_any_words_come_back_as_they_were(tmp_path_factory, cells, heading):
    folder = tmp_path_factory.mktemp("any")
    with (folder / "any.csv").open("w", newline="", encoding="utf-8") as file:
        lines = csv.writer(file)
        lines.writerow(["Button no.", "Diameter (mm)", "Notes", "Thread", "Own", f"{heading}#"])
        lines.writerows([f"K{n}", "16", *row, row[0]] for n, row in enumerate(cells))
    survey = bs.load_survey(folder / "any.csv")
    assert_equal(survey, bs.load_survey(export_survey(survey, folder / "out", SAID)))


def test_text_like_a_formula_is_harmless_in_the_files_and_restored_on_reading(small, tmp_path):
    folder = export_survey(small, tmp_path / "out", SAID)
    with (folder / "buttons.csv").open(newline="", encoding="utf-8") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert "'=1+1" in cells
    assert "'=Shelf" in cells
    assert not [cell for cell in cells if re.match(r"[=+@\t\r]|-(?![\d.])", cell)]
    again = bs.load_survey(folder).buttons
    assert again["notes"].tolist() == ["=1+1", "-x", "a\rb\n\tc"]
    assert again["=Shelf"].tolist()[0] == "@a"


def test_every_column_is_defined_with_its_unit(archive):
    package = described(archive)
    listed = {one["name"]: one["schema"]["fields"] for one in package["resources"]}
    of = {one["name"]: one for one in listed["buttons"]}
    for table, columns in listed.items():
        for column in columns:
            assert column["title"], (table, column)
            assert column["description"].endswith("."), (table, column)
            assert "{" not in column["description"], (table, column)
    own = [name for name, one in of.items() if one["description"].startswith("A column of the sur")]
    assert own == ["Drawer"]
    assert of["diameter_mm"]["unit"] == "mm"
    assert of["cover_layers_low"]["unit"] == "1"
    assert of["year_from"]["type"] == "integer"
    assert of["hole_diameter_mm_high"]["description"].startswith("Hole diameter: the most")
    assert of["mould_material"]["description"] == "What the mould under the cover is made of."
    assert of["mould_material"]["categories"][-3:] == ["absent", "not examined", "unclear"]
    assert of["size_class"]["categoriesOrdered"] is True
    assert {one.field for one in fields() if one.kind == "term"} <= set(of)


def test_licence_sources_and_title_are_stated(archive):
    package = described(archive)
    assert package["title"] == "An invented survey"
    assert package["name"] == "an-invented-survey"
    assert package["licenses"] == [{"name": "CC0-1.0"}]
    assert package["sources"] == [{"title": one} for one in SAID.sources]


def test_a_licence_may_be_an_address_but_not_a_sentence(small, tmp_path):
    folder = export_survey(small, tmp_path / "a", Statement(licence="https://example.org/terms"))
    assert described(folder)["licenses"] == [{"path": "https://example.org/terms"}]
    with pytest.raises(CallError, match='"ask me first" cannot be the name of a licence'):
        export_survey(small, tmp_path / "b", Statement(licence="ask me first"))
    assert not (tmp_path / "b").exists()


def test_terms_carry_the_identifiers_of_an_open_thesaurus(archive):
    terms = pd.read_csv(archive / "vocabulary.csv", dtype="str").set_index(["field", "term"])
    silk = terms.loc[("thread", "silk")]  # Getty AAT: silk (textile fibre) 300014072
    assert silk["aat_uri"] == "http://vocab.getty.edu/aat/300014072"
    assert described(archive)["subject"] == "http://vocab.getty.edu/aat/300239261"  # AAT: buttons
    without = terms[terms["aat"].isna()]
    assert len(without)
    assert without["aat_uri"].isna().all()


def test_a_vocabulary_of_ones_own_is_in_the_archive(small, tmp_path):
    own = tmp_path / "own.csv"
    own.write_text("field,term,definition\nthread,bog cotton,Invented for a test.\n")
    folder = export_survey(small, tmp_path / "out", SAID, Choices(vocabulary=str(own)))
    assert "Invented for a test." in (folder / "vocabulary.csv").read_text(encoding="utf-8")


def test_the_tables_with_which_a_survey_was_read_are_in_its_archive(tmp_path):
    (tmp_path / "maps").mkdir()
    written = {
        "survey.csv": "=Nr,Weite,Date\n1,16,1840\n2,17,1850\n",
        "maps/Größe.csv": "heading;field;unit\nWeite;diameter;mm\n",
        "maps/number.csv": "heading,field\n=Nr,button_id\n",
        "right.csv": "file,row,kind\nsurvey.csv,3,size-unusual\n",
        "own.csv": "field,term,definition\nthread,bog cotton,Invented for a test.\n",
    }
    for name, text in written.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    choices = Choices(
        mapping=str(tmp_path / "maps"),
        accepted=str(tmp_path / "right.csv"),
        vocabulary=str(tmp_path / "own.csv"),
    )
    survey = bs.load_survey(tmp_path / "survey.csv", **choices.reading())
    folder = export_survey(survey, tmp_path / "out", SAID, choices)
    report = frictionless.validate(str(folder / "datapackage.json"))
    assert report.flatten(["type", "message"]) == []
    own = {one["path"]: one for one in described(folder)["resources"] if "own" in one["path"]}
    assert set(own) == {
        "own-mapping-grösse.csv",
        "own-mapping-number.csv",
        "own-accepted-right.csv",
        "own-vocabulary-own.csv",
    }
    assert own["own-accepted-right.csv"]["title"] == "The researcher's own table: accepted"
    assert own["own-accepted-right.csv"]["schema"]["fields"][0]["description"] == (
        "A column of the researcher's own table (accepted), as text, without blanks around it and "
        "without blank rows; an apostrophe stands before what begins like a formula."
    )
    assert "'=Nr,button_id" in (folder / "own-mapping-number.csv").read_text(encoding="utf-8")
    mappings = tmp_path / "again"
    mappings.mkdir()
    for path in folder.glob("own-mapping-*.csv"):
        path.rename(mappings / path.name)
    again = bs.load_survey(tmp_path / "survey.csv", mapping=mappings)
    pd.testing.assert_frame_equal(again.buttons, survey.buttons)


OWN_WORDS = {
    "survey.csv": "Button no.,Diameter (mm),Padding\n1,16,ewe's wool of Ada\n2,16,ewe's wool\n",
    "own.csv": "field,term,synonyms\npadding,wool,=ewe's wool|ewe's wool\n",
    "map.csv": "heading,field\n=Nr,button_id\n",
}


def _with_own_tables(folder):
    for name, text in OWN_WORDS.items():
        (folder / name).write_text(text, encoding="utf-8")
    choices = Choices(vocabulary=str(folder / "own.csv"), mapping=str(folder / "map.csv"))
    return bs.load_survey(folder / "survey.csv", **choices.reading()), choices


def test_an_archive_of_an_archive_has_all_that_the_first_one_has(tmp_path):
    survey, choices = _with_own_tables(tmp_path)
    first = export_survey(survey, tmp_path / "first", SAID, choices)
    for name in ("survey.csv", "own.csv", "map.csv"):
        (tmp_path / name).unlink()
    again = export_survey(bs.load_survey(first), tmp_path / "again", SAID, paths=[first])
    assert {path.name for path in first.glob("own-*")} == {
        "own-mapping-map.csv",
        "own-vocabulary-own.csv",
    }
    for path in first.iterdir():
        assert (again / path.name).read_bytes() == path.read_bytes(), path.name


def test_every_wording_is_in_the_archive_with_what_was_passed_over_in_it(tmp_path):
    survey, choices = _with_own_tables(tmp_path)
    told = pd.read_csv(export_survey(survey, tmp_path / "out", SAID, choices) / "wordings.csv")
    padding = told[told["field"] == "padding"].set_index("wording")
    assert padding["read_as"].unique().tolist() == ["wool"]
    assert padding["passed_over"].fillna("").to_dict() == {
        "ewe's wool of Ada": "Ada",
        "ewe's wool": "",
    }


def test_an_archive_of_a_reports_survey_has_the_tables_that_the_report_keeps(tmp_path):
    from buttonstudy.publish.given import report_values
    from buttonstudy.publish.saving import save_survey

    survey, choices = _with_own_tables(tmp_path)
    save_survey(survey, tmp_path / "report" / "survey")
    report_values(choices, survey, tmp_path / "report")
    saved = tmp_path / "report" / "survey"
    folder = export_survey(bs.load_survey(saved), tmp_path / "out", SAID, paths=[saved])
    assert {path.name for path in folder.glob("own-*")} == {
        "own-mapping-map.csv",
        "own-vocabulary-own.csv",
    }


@pytest.mark.parametrize("name", ["own-mapping-x/../../private", "own-mapping-link"])
def test_a_received_archive_hands_on_no_file_from_outside_its_folder(small, tmp_path, name):
    (tmp_path / "private.csv").write_text("heading,field\nOwner,notes\n", encoding="utf-8")
    received = export_survey(small, tmp_path / "received", SAID)
    package = described(received)
    package["resources"].append({"name": name, "schema": {"fields": []}})
    (received / "datapackage.json").write_text(json.dumps(package), encoding="utf-8")
    (received / "own-mapping-x").mkdir()
    (received / "own-mapping-link.csv").symlink_to(tmp_path / "private.csv")
    folder = export_survey(bs.load_survey(received), tmp_path / "out", SAID, paths=[received])
    assert not [path.name for path in folder.iterdir() if "own" in path.name]


def test_links_in_a_received_report_lead_to_no_file_from_outside(small, tmp_path):
    (tmp_path / "private").mkdir()
    (tmp_path / "private" / "secret.csv").write_text("heading,field\nOwner,notes\n")
    saved = tmp_path / "report" / "survey"
    save_survey(small, saved)
    kept = tmp_path / "report" / KEPT_IN
    kept.mkdir()
    (kept / "mapping").symlink_to(tmp_path / "private")
    assert kept_tables([saved]) == []
    (kept / "mapping").unlink()
    (tmp_path / "private").rename(kept / "mapping")  # the same table, lying there
    assert [one.setting for one in kept_tables([saved])] == ["mapping"]


@pytest.mark.parametrize(
    ("dropped", "works"), [({"vaguer", "aat"}, True), ({"synonyms"}, True), ({"term"}, False)]
)
def test_a_vocabulary_of_another_kit_is_read_or_refused_in_words(small, tmp_path, dropped, works):
    folder = export_survey(small, tmp_path / "received", SAID)
    terms = pd.read_csv(folder / "vocabulary.csv", dtype=str).drop(columns=list(dropped))
    terms.to_csv(folder / "vocabulary.csv", index=False)
    package = described(folder)
    for one in package["resources"]:
        if one["name"] == "vocabulary":
            kept = [column for column in one["schema"]["fields"] if column["name"] not in dropped]
            one["schema"]["fields"] = kept
    (folder / "datapackage.json").write_text(json.dumps(package), encoding="utf-8")
    if works:
        assert read_exported_vocabulary(folder).term("cover_material", "silk") is not None
        return
    with pytest.raises(SavedSurveyError, match="no columns field and term"):
        read_exported_vocabulary(folder)


def test_what_a_received_archive_names_is_not_taken_from_ones_own_disk(small, tmp_path):
    (tmp_path / "private.csv").write_text("heading,field\nOwner,notes\n", encoding="utf-8")
    received = export_survey(small, tmp_path / "received", SAID)
    package = described(received)
    package["conventions"]["mapping"] = str(tmp_path / "private.csv")
    (received / "datapackage.json").write_text(json.dumps(package), encoding="utf-8")
    folder = export_survey(bs.load_survey(received), tmp_path / "out", SAID)
    assert not [path.name for path in folder.iterdir() if "own" in path.name]


def test_a_name_of_a_scheme_is_never_that_of_a_folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("survey.csv").write_text("Button no.,Diameter (mm)\n1,16\n", encoding="utf-8")
    for folder in ("buttonstudy", "us-society"):
        Path(folder).mkdir()
        Path(folder, "private.csv").write_text("Button no.,Owner\n1,Ada Tarn\n", encoding="utf-8")
    choices = Choices(dates="buttonstudy", size_classes="us-society")
    folder = export_survey(bs.load_survey("survey.csv"), "out", SAID, choices)
    assert not [path.name for path in folder.iterdir() if "own" in path.name]


def test_a_number_below_nought_in_a_table_of_ones_own_stays_one(tmp_path):
    path = tmp_path / "rules.csv"
    path.write_text("rule,first,last\ncirca,-5,+5\n@x,-,1\n", encoding="utf-8")
    (table,) = own_tables({"date_convention": str(path), "mapping": "not there.csv"})
    assert own_frame(table).to_numpy().tolist() == [["circa", "-5", "+5"], ["'@x", "'-", "1"]]


def test_the_same_survey_gives_the_same_bytes(small, tmp_path):
    one, other = (export_survey(small, tmp_path / name / "x", SAID) for name in _made(tmp_path))
    for path in one.iterdir():
        assert path.read_bytes() == (other / path.name).read_bytes()


def _made(folder):
    for name in ("one", "other"):
        (folder / name).mkdir()
        yield name


def test_a_folder_that_holds_something_is_left_alone(small, tmp_path):
    with pytest.raises(CallError, match="already holds something and was left alone"):
        export_survey(small, tmp_path, SAID)
    with pytest.raises(CallError, match="There is no folder"):
        export_survey(small, tmp_path / "none" / "out", SAID)
    (tmp_path / "empty").mkdir()
    assert len(bs.load_survey(export_survey(small, tmp_path / "empty", SAID)).buttons) == 3


def test_a_folder_that_fills_meanwhile_is_left_alone(small, tmp_path, monkeypatch):
    from buttonstudy.publish import archive

    def another_run(folder, buttons):
        (tmp_path / "out").mkdir()
        (tmp_path / "out" / "theirs.txt").write_text("kept")
        return write(folder, buttons)

    write = archive._write_parquet
    monkeypatch.setattr(archive, "_write_parquet", another_run)
    with pytest.raises(CallError, match="already holds something and was left alone"):
        export_survey(small, tmp_path / "out", SAID)
    assert (tmp_path / "out" / "theirs.txt").read_text() == "kept"


def test_a_full_disk_leaves_nothing_behind(small, tmp_path, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    before = sorted(tmp_path.iterdir())
    monkeypatch.setattr("pathlib.Path.replace", full)
    with pytest.raises(PublishError, match="could not be written: no space left on device"):
        export_survey(small, tmp_path / "out", SAID)
    assert sorted(tmp_path.iterdir()) == before


def test_nothing_read_is_nothing_to_export(tmp_path):
    with pytest.raises(CallError, match="No button record could be read, so there is nothing"):
        export_survey(bs.load_survey(tmp_path / "missing.csv"), tmp_path / "out", SAID)


DAMAGED = [
    (lambda text: text.replace("16.0", "sixteen"), 'row 2, column diameter_mm: "sixteen" is no'),
    (lambda text: text.replace("set_id", "sets"), "row 1: the headings are not those that"),
    (lambda text: text.replace("1,,", "1,,,", 1), "row 2: there are"),
]


@pytest.mark.parametrize(("damage", "says"), DAMAGED)
def test_a_table_that_does_not_fit_its_description_is_told(small, tmp_path, damage, says):
    folder = export_survey(small, tmp_path / "out", SAID)
    path = folder / "buttons.csv"
    path.write_bytes(damage(path.read_bytes().decode()).encode())
    with pytest.raises(SavedSurveyError, match=says):
        bs.load_survey(folder)


def test_an_archive_that_is_not_whole_is_told(small, tmp_path):
    folder = export_survey(small, tmp_path / "out", SAID)
    (folder / "problems.csv").unlink()
    with pytest.raises(SavedSurveyError, match=r"The exported survey in .*out is not whole"):
        bs.load_survey(folder)


KNOWN = ["CC0-1.0", "CC-BY-NC-SA-3.0-DE", "ODbL-1.0", "MIT", "mit", "https://example.org/x", ""]


@pytest.mark.parametrize("licence", KNOWN)  # names of the SPDX License List
def test_known_kinds_of_licence_names_and_addresses_need_no_word(licence):
    assert licence_remark(licence) == ""


@pytest.mark.parametrize("licence", ["BLAH", "CC-BY", "ours", "2.0"])
def test_another_licence_is_kept_and_said_not_to_be_known(licence):
    assert licence_remark(licence).startswith(f"{licence} is kept as written; it is no known")


def test_an_archive_is_read_alone_and_with_its_own_conventions(archive, tmp_path):
    other = tmp_path / "other.csv"
    other.write_text("Button no.,Diameter (mm)\n1,16\n")
    with pytest.raises(SchemeError, match="is read alone, not together with others"):
        bs.load_survey([archive, other])
    with pytest.raises(SchemeError, match="was read with other settings") as told:
        bs.load_survey(archive, date_convention="quarters", mapping="map.csv")
    assert "(date_convention: buttonstudy, mapping: none)" in str(told.value)


def test_an_archive_stands_in_for_a_survey_read_with_settings_of_ones_own(tmp_path):
    path, mapping = tmp_path / "survey.csv", tmp_path / "map2.csv"
    path.write_text("Knopf-Nr,Weite,Date\n1,16,1800s\n", encoding="utf-8")
    mapping.write_text("heading,field,unit\nKnopf-Nr,button_id,\nWeite,diameter,mm\n")
    survey = bs.load_survey(path, mapping=mapping, date_convention="quarters")
    folder = export_survey(survey, tmp_path / "exp", SAID)
    assert_equal(survey, bs.load_survey(folder))
    assert_equal(survey, bs.load_survey(folder, mapping="elsewhere/map2.csv"))
    with pytest.raises(SchemeError, match=r"other settings \(date_convention: quarters\)"):
        bs.load_survey(folder, date_convention="buttonstudy")
