"""The pack's files, also for surveys that hold almost nothing or hold it in odd words."""

import hashlib
from dataclasses import replace
from io import BytesIO

import docx
import pypdf
import pytest

from buttonstudy.publish.newsletter import pack
from buttonstudy.publish.newsletter.pack import write_newsletter
from buttonstudy.publish.newsletter.proof import Proof
from buttonstudy.survey.load import load_survey

LONG = "cloth of many colours wound over a former of uncertain stuff and sewn through twice"
WORD = "Posamentenknopfmacherhandwerkszeugkastenschlossschraubenschluesselaufbewahrungsort"
HEADINGS = "No,Recorder,Diam (mm),Mould,Date\n"


def rows(moulds, recorder="Ada Tarn"):
    return HEADINGS + "".join(
        f'{n},"{recorder}",{13 + n % 7},"{moulds[n % len(moulds)]}",{1815 + n}\n'
        for n in range(1, 41)
    )


SURVEYS = {
    "nothing to draw": "No,Shelf\n1,top\n2,low\n",
    "one button": f"{HEADINGS}1,Ada Tarn,16,bone,1830\n",
    "no dates": f"{HEADINGS}1,,16,bone,\n2,,17,wood,\n3,,18,bone,\n",
    "long terms": rows((LONG, WORD, "bone"), WORD),
    "not Latin": rows(("釦", "пуговица", "زر", "κόκαλο"), "山田 花子"),
}
CASES = [(held, "a5-column") for held in SURVEYS] + [("long terms", "a5-page")]


def files(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.mark.parametrize(("held", "size"), CASES)
def test_a_pack_comes_out_of_any_survey(held, size, draft, tmp_path):
    path = tmp_path / "survey.csv"
    path.write_text(SURVEYS[held], encoding="utf-8")
    article = draft(load_survey([path]), size=size)
    said = write_newsletter(article, tmp_path / "pack")
    made = files(tmp_path / "pack")
    drawn = [part for part in article.parts if part.number]
    assert {"article.docx", "article.txt", "proof.pdf", "sources.csv"} <= set(made)
    assert len(made) == 4 + 2 * len(drawn)
    mark = hashlib.sha256(path.read_bytes()).hexdigest()
    assert f"survey.csv,{article.files[0][1]},{mark}" in made["sources.csv"].decode()
    assert mark[:8] not in made["article.txt"].decode()
    told = [one.text for one in docx.Document(BytesIO(made["article.docx"])).paragraphs]
    for part in article.parts:
        assert part.caption in told
        assert part.caption in made["article.txt"].decode()
        if not part.number:
            assert part.caption.startswith("There is no figure here: ")
            assert f"{part.name}: {part.drawn.caption}" in said
    assert pypdf.PdfReader(BytesIO(made["proof.pdf"])).pages


def test_letters_that_the_proof_lacks_are_marked_and_stand_in_the_other_files(draft, tmp_path):
    path = tmp_path / "survey.csv"
    path.write_text(SURVEYS["not Latin"], encoding="utf-8")
    write_newsletter(draft(load_survey([path])), tmp_path / "pack")
    made = files(tmp_path / "pack")
    assert "山田 花子" in made["article.txt"].decode()
    pages = pypdf.PdfReader(BytesIO(made["proof.pdf"])).pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert "▯ stands for a letter that this typeface lacks" in text
    assert "пуговица" in text


def test_the_same_article_gives_the_same_files(article, tmp_path):
    write_newsletter(article, tmp_path / "one")
    write_newsletter(article, tmp_path / "two")
    assert files(tmp_path / "one") == files(tmp_path / "two")


def test_a_proof_of_more_than_two_pages_is_told(article, tmp_path, monkeypatch):
    monkeypatch.setattr(pack, "proof", lambda article: Proof(b"%PDF", 3))
    said = write_newsletter(article, tmp_path)
    assert said[0].endswith("proof.pdf of 3 pages.")
    assert said[1].startswith("sources.csv lists the survey files")
    assert article.size.endswith("-column")
    assert said[2] == "The proof takes more than 2 pages. Choose fewer figures."
    said = write_newsletter(replace(article, size="a5-page"), tmp_path)
    assert said[2] == (
        "The proof takes more than 2 pages. Choose fewer figures, or the width of a column."
    )


def test_without_a_folder_nothing_is_saved(article):
    assert write_newsletter(article, "") == ["Nothing was saved, since outputs names no folder."]
