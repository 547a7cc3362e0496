"""The article as a Word document, for an editor who works in a word processor.

It is a draft on A4, whatever the newsletter's paper, with each figure at its printed width, its
caption kept beside it and its alternative text where readers' programs look for it. The document
says nothing about the day or the computer on which it was made.
"""

import zipfile
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING

from buttonstudy.publish.newsletter.article import CAUTION_LEAD, METHOD_LEAD, Article, Part
from buttonstudy.publish.pictures import picture_bytes

if TYPE_CHECKING:
    from docx.document import Document
    from docx.styles.style import ParagraphStyle
    from docx.text.paragraph import Paragraph

__all__ = ["word_document"]

_PAPER = "A4"
_SIDE_MM = 20.0
_SERIF, _SANS = "Times New Roman", "Arial"
_SHADE = "EFEFEF"
_SHADED = (METHOD_LEAD, CAUTION_LEAD)
_LANGUAGE = "en-GB"
_DAY = datetime(1980, 1, 1)  # the first that a zip file can name, so no day at all
_STYLES = (
    ("Normal", _SERIF, 11.0, False, 0, 5),
    ("Title", _SANS, 20.0, True, 0, 3),
    ("Subtitle", _SANS, 10.0, False, 0, 8),
    ("Heading 1", _SANS, 13.0, True, 12, 4),
    ("Heading 2", _SANS, 11.0, True, 8, 3),
    ("Caption", _SANS, 8.0, False, 2, 10),
)
"""Style, typeface, size in points, bold or not, and the space before and after in points."""


def word_document(article: Article) -> bytes:
    """Return the article as the content of a .docx file."""
    import docx

    document = docx.Document()
    _set_up(document, article)
    document.add_paragraph(article.title, "Title")
    document.add_paragraph(article.survey, "Subtitle")
    if article.notice:
        document.add_paragraph().add_run(article.notice).bold = True
    for sentence in article.lead:
        document.add_paragraph(sentence)
    for part in article.parts:
        document.add_heading(part.heading, 1)
        _add_figure(document, part, article.size)
        for sentence in part.sentences:
            document.add_paragraph(sentence)
    for heading, sentences in article.boxes:
        _add_box(document, heading, sentences)
    content = BytesIO()
    document.save(content)
    return _undated(content.getvalue())


def _set_up(document: "Document", article: Article) -> None:
    """Set the page, the styles, and what the file says of itself."""
    from docx.shared import Mm

    from buttonstudy.draw.paper import paper

    sheet, section = paper(_PAPER), document.sections[0]
    section.page_width, section.page_height = Mm(sheet.width_mm), Mm(sheet.height_mm)
    section.left_margin = section.right_margin = Mm(_SIDE_MM)
    section.top_margin = section.bottom_margin = Mm(sheet.margin_mm)
    section.header_distance = section.footer_distance = Mm(sheet.margin_mm / 2)
    for style in _STYLES:
        _set_style(document, *style)
    if article.notice:
        foot = section.footer.paragraphs[0]
        foot.text, foot.style = article.notice, document.styles["Caption"]
    about = document.core_properties
    about.title, about.author, about.comments = article.title[:255], "", article.notice
    about.last_modified_by, about.language, about.revision = "", _LANGUAGE, 1
    about.created = about.modified = _DAY
    _drop_thumbnail(document)


def _drop_thumbnail(document: "Document") -> None:
    """Take out the small picture of the empty document that every new one brings with it."""
    from docx.opc.constants import RELATIONSHIP_TYPE

    bonds = document.part.package.rels
    for name in [one for one, bond in bonds.items() if bond.reltype == RELATIONSHIP_TYPE.THUMBNAIL]:
        del bonds[name]


def _set_style(
    document: "Document", name: str, face: str, points: float, bold: bool, before: int, after: int
) -> None:
    from docx.oxml.ns import qn
    from docx.oxml.parser import OxmlElement
    from docx.shared import Pt, RGBColor

    style: ParagraphStyle = document.styles[name]
    style.font.size, style.font.bold, style.font.italic = Pt(points), bold, False
    style.font.color.rgb = RGBColor(0, 0, 0)
    style.paragraph_format.space_before = Pt(before)
    style.paragraph_format.space_after = Pt(after)
    properties = style.element.get_or_add_rPr()
    faces = properties.get_or_add_rFonts()
    for theme in ("asciiTheme", "hAnsiTheme", "eastAsiaTheme", "cstheme"):
        faces.attrib.pop(qn(f"w:{theme}"), None)
    for kind in ("ascii", "hAnsi", "cs"):
        faces.set(qn(f"w:{kind}"), face)
    for border in style.element.iter(qn("w:pBdr")):
        border.getparent().remove(border)
    for old in properties.findall(qn("w:lang")):
        properties.remove(old)
    language = OxmlElement("w:lang")
    language.set(qn("w:val"), _LANGUAGE)
    properties.append(language)


def _add_figure(document: "Document", part: Part, size: str) -> None:
    from docx.shared import Mm

    from buttonstudy.draw.style import print_size

    if not part.number:
        document.add_paragraph(part.caption, "Caption")
        return
    place = document.add_paragraph()
    place.paragraph_format.keep_with_next = True
    place.paragraph_format.space_after = 0
    png = BytesIO(picture_bytes(part.drawn, "png"))
    picture = place.add_run().add_picture(png, width=Mm(print_size(size).width_mm))
    described = picture._inline.docPr
    described.set("name", f"Figure {part.number}")
    described.set("descr", part.drawn.alt_text)
    caption = document.add_paragraph(part.caption, "Caption")
    caption.paragraph_format.keep_together = True


def _add_box(document: "Document", heading: str, sentences: tuple[str, ...]) -> None:
    """Add what stands apart; method and cautions on a shaded ground that breaks over pages."""
    paragraphs = [document.add_heading(heading, 2)]
    for sentence in sentences:
        paragraphs.append(document.add_paragraph(sentence))
        paragraphs[-1].paragraph_format.space_after = 0
    if heading in _SHADED:
        for paragraph in paragraphs:
            _shade(paragraph)


def _shade(paragraph: "Paragraph") -> None:
    from docx.oxml.ns import qn
    from docx.oxml.parser import OxmlElement

    shade = OxmlElement("w:shd")
    for name, value in (("val", "clear"), ("color", "auto"), ("fill", _SHADE)):
        shade.set(qn(f"w:{name}"), value)
    paragraph._p.get_or_add_pPr().append(shade)


def _undated(content: bytes) -> bytes:
    """Pack a document again without the clock times that packing writes."""
    packed = BytesIO()
    with (
        zipfile.ZipFile(BytesIO(content)) as old,
        zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            new.writestr(zipfile.ZipInfo(name), old.read(name), zipfile.ZIP_DEFLATED)
    return packed.getvalue()
