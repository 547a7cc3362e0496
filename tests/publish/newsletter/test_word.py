"""The Word document, opened again by python-docx and by LibreOffice."""

import shutil
import subprocess
import zipfile
from io import BytesIO

import docx
import pypdf
import pytest
from docx.oxml.ns import qn

from buttonstudy.draw.style import print_size
from buttonstudy.publish.newsletter.word import word_document

EMU_PER_MM = 36000  # ECMA-376: 914400 to the inch


@pytest.fixture(scope="module")
def content(article):
    return word_document(article)


@pytest.fixture(scope="module")
def document(content):
    return docx.Document(BytesIO(content))


def paragraphs(document):
    return [paragraph.text for paragraph in document.paragraphs]


def test_the_article_stands_in_it_word_for_word(document, article):
    told = paragraphs(document)
    assert told[:3] == [article.title, article.survey, article.lead[0]]
    for part in article.parts:
        assert part.caption in told
        assert set(part.sentences) <= set(told)
    for heading, sentences in article.boxes:
        assert told[told.index(heading) + 1 :][: len(sentences)] == list(sentences)


def test_figures_stand_at_their_printed_width_with_alternative_texts(document, article):
    shapes = document.inline_shapes
    assert len(shapes) == len(article.parts)
    for shape, part in zip(shapes, article.parts):
        assert shape.width == print_size("a5-column").width_mm * EMU_PER_MM
        assert shape._inline.docPr.get("descr") == part.drawn.alt_text
        assert shape._inline.docPr.get("name") == f"Figure {part.number}"


def test_a_caption_stays_with_its_figure(document):
    pictures = [
        at for at, one in enumerate(document.paragraphs) if one._p.findall(f".//{qn('w:drawing')}")
    ]
    assert len(pictures) == 2
    for at in pictures:
        assert document.paragraphs[at].paragraph_format.keep_with_next
        assert document.paragraphs[at + 1].style.name == "Caption"


def test_it_brings_no_picture_of_another_document(content):
    with zipfile.ZipFile(BytesIO(content)) as packed:
        pictures = [name for name in packed.namelist() if name.endswith((".jpeg", ".jpg", ".png"))]
    assert pictures == ["word/media/image1.png", "word/media/image2.png"]


def test_it_is_in_british_english_on_a4_and_names_nobody(document):
    section = document.sections[0]
    # ISO 216: A4 is 210 by 297 mm
    assert (round(section.page_width.mm), round(section.page_height.mm)) == (210, 297)
    about = document.core_properties
    assert (about.author, about.last_modified_by, about.language) == ("", "", "en-GB")
    languages = {
        one.get(qn("w:val")) for one in document.styles["Normal"].element.iter(qn("w:lang"))
    }
    assert languages == {"en-GB"}


def test_the_same_article_gives_the_same_bytes_without_a_date(content, article):
    assert word_document(article) == content
    with zipfile.ZipFile(BytesIO(content)) as packed:
        assert {one.date_time for one in packed.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_invented_data_say_so_at_the_top_and_at_every_foot(demo_article):
    document = docx.Document(BytesIO(word_document(demo_article)))
    assert demo_article.notice in paragraphs(document)[:4]
    assert document.sections[0].footer.paragraphs[0].text == demo_article.notice
    assert document.core_properties.comments == demo_article.notice


@pytest.mark.skipif(not shutil.which("soffice"), reason="LibreOffice is not installed")
def test_libreoffice_lays_it_out_with_its_pictures(content, article, tmp_path):
    path = tmp_path / "article.docx"
    path.write_bytes(content)
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    told = ["soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", tmp_path, path]
    ran = subprocess.run(told, capture_output=True, text=True, timeout=180, check=False)
    if not (tmp_path / "article.pdf").exists() and "could not be loaded" in ran.stderr + ran.stdout:
        pytest.skip("LibreOffice is installed without its word processor")
    pages = pypdf.PdfReader(tmp_path / "article.pdf").pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert article.title in text
    assert article.credits[0] in text
    assert len({image.name for page in pages for image in page.images}) == len(article.parts)
    for page in pages:
        captions = [one for one in article.parts if f"Figure {one.number}. " in page.extract_text()]
        shown = page.get_contents().get_data().count(b" Do")
        assert shown == len(captions), "each caption stands on the page of its figure"
