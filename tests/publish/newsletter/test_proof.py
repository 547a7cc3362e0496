"""The proof, read back by pypdf: paper, pages, type, words, and nothing beyond the margins."""

from io import BytesIO

import pypdf
import pytest

from buttonstudy.publish.newsletter import proof as proof_module
from buttonstudy.publish.newsletter.proof import PAGES, proof
from buttonstudy.survey.load import load_survey

POINTS_PER_MM = 72 / 25.4
# ISO 216, in mm
PAPERS = {"a5-column": (148, 210), "a5-page": (148, 210), "a4-column": (210, 297)}
SMALLEST_PT = 7.0


def read(made):
    return pypdf.PdfReader(BytesIO(made.pdf))


def pieces(page):
    """Give each piece of text with its size in points and its place."""
    found = []

    def visit(text, page_matrix, text_matrix, font, size):
        if text.strip() and font is not None:
            matrix = pypdf.mult(text_matrix, page_matrix)
            found.append((text, size * abs(matrix[3]), matrix[4], matrix[5]))

    page.extract_text(visitor_text=visit)
    return found


def words(reader):
    text = "".join(page.extract_text() for page in reader.pages)
    for break_or_hyphen in "\u200b\xad-":
        text = text.replace(break_or_hyphen, "")
    return "".join(text.split())


def stands(sentence, told):
    """Say whether a sentence is there; a figure may part it where a column ends."""
    letters = "".join(sentence.replace("-", "").split())
    cuts = range(1, len(letters) + 1)
    return any(letters[:cut] in told and letters[cut:] in told for cut in cuts)


@pytest.fixture(scope="module")
def demo(demo_article):
    made = proof(demo_article)
    assert made.pages == PAGES == 2
    return read(made)


def test_the_demo_takes_two_pages_of_a5(demo):
    assert len(demo.pages) == 2
    for page in demo.pages:
        sides = (float(page.mediabox.width), float(page.mediabox.height))
        assert sides == pytest.approx([side * POINTS_PER_MM for side in (148, 210)], abs=0.01)


@pytest.mark.parametrize("size", PAPERS)
def test_the_paper_is_the_one_asked_for(survey, draft, size):
    made = proof(draft(survey, size=size))
    page = read(made).pages[0]
    sides = (float(page.mediabox.width), float(page.mediabox.height))
    assert sides == pytest.approx([side * POINTS_PER_MM for side in PAPERS[size]], abs=0.01)
    assert len(read(made).pages) == made.pages


def test_type_is_large_enough_and_keeps_within_the_margins(demo):
    for page in demo.pages:
        for text, size, across, up in pieces(page):
            assert size >= SMALLEST_PT - 0.01, text
            assert 13.9 * POINTS_PER_MM <= across <= (148 - 13.9) * POINTS_PER_MM, text
            assert 8 * POINTS_PER_MM <= up <= (210 - 14) * POINTS_PER_MM, text


def test_everything_is_said_and_the_notice_stands_on_each_page(demo, demo_article):
    told = words(demo)
    said = [demo_article.title, demo_article.notice, *demo_article.lead, *demo_article.method]
    said += [one for part in demo_article.parts for one in (part.caption, *part.sentences)]
    said += [*demo_article.credits, *demo_article.citation, *demo_article.sources]
    for sentence in said:
        assert stands(sentence, told), sentence
    for page in demo.pages:
        assert "Invented data, evidence of nothing." in page.extract_text()


def test_where_room_is_short_each_hazard_is_still_named(demo_article, monkeypatch):
    monkeypatch.setattr(proof_module, "_FITS", (proof_module._Fit(8.5, False),))
    told = words(read(proof(demo_article)))
    first, *others, last = demo_article.cautions
    for caution in others:
        assert "".join(caution.partition(":")[0].lower().split()) in told
    assert "Whattoheedforeachstandsinthefullarticle." in told
    assert stands(first, told)
    assert stands(last, told)


def test_the_demo_has_room_for_all_cautions(demo, demo_article):
    told = words(demo)
    assert all(stands(caution, told) for caution in demo_article.cautions)


@pytest.mark.parametrize("size", ["a5-page", "a5-column"])
def test_no_word_gets_lost_among_figures(survey, draft, size):
    """Boxes broken beside floating figures once lost lines, or ran off the page."""
    names = ["construction-dates-of-the-record", "construction-examined", "sizes-size-classes"]
    article = draft(survey, [*names, "construction-mould-material-by-period"], size=size)
    reader = read(proof(article))
    told = words(reader)
    for sentence in (*article.method, *article.citation, *article.cautions):
        assert stands(sentence, told), sentence
    assert all(up > 8 * POINTS_PER_MM for page in reader.pages for *_, up in pieces(page))


def test_typefaces_are_embedded_and_come_with_packages(demo):
    faces = {}
    for page in demo.pages:
        for font in page["/Resources"]["/Font"].values():
            below = font.get_object()["/DescendantFonts"][0].get_object()
            described = below["/FontDescriptor"].get_object()
            faces[str(below["/BaseFont"])] = any(key.startswith("/FontFile") for key in described)
    assert all(faces.values())
    assert {name.partition("+")[2].partition("-")[0] for name in faces} == {
        "DejaVuSans",
        "LibertinusSerif",
    }


def test_it_can_be_read_aloud(demo, demo_article):
    root = demo.trailer["/Root"]
    assert root["/Lang"] == "en-GB"
    assert root["/MarkInfo"]["/Marked"]
    assert demo.metadata.title == demo_article.title
    assert demo.metadata.creation_date is None
    texts = {str(one["/Alt"]) for one in elements(root["/StructTreeRoot"]) if "/Alt" in one}
    assert {part.drawn.alt_text for part in demo_article.parts} <= texts


def elements(node):
    node = node.get_object()
    if isinstance(node, list):
        for one in node:
            yield from elements(one)
    elif isinstance(node, dict):
        yield node
        if "/K" in node:
            yield from elements(node["/K"])


def test_the_same_article_gives_the_same_bytes(article):
    assert proof(article).pdf == proof(article).pdf


def test_words_of_a_survey_are_never_markup(draft, tmp_path):
    path = tmp_path / "odd.csv"
    moulds = ("#strong[x] $y$", "\\ @ref *b* _i_", '#read(""/etc"")', "= head")
    rows = "".join(f'{n},{14 + n % 5},"{moulds[n % 4]}",1830\n' for n in range(1, 41))
    path.write_text(f"No,Diam (mm),Mould,Date\n{rows}", encoding="utf-8")
    article = draft(load_survey([path]), title='#eval("1") *bold* <b>', survey_name="$x$ // y")
    told = words(read(proof(article)))
    assert '#eval("1")*bold*<b>' in told
    assert "$x$//y" in told
    assert "#strong[x]$y$" in told


def test_a_long_name_of_a_survey_stays_on_the_line_at_the_foot(survey, draft):
    article = draft(survey, survey_name="The drawer of the late " * 12, title="Long " * 40)
    for page in read(proof(article)).pages:
        lowest = [text for text, _, _, up in pieces(page) if up < 15 * POINTS_PER_MM]
        assert len("".join(lowest)) < 70
