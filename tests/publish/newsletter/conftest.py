"""An invented survey, and the article about it."""

import pytest

from buttonstudy.publish.newsletter.draft import draft_newsletter
from buttonstudy.survey.load import load_survey

COMPARED = ("mould_material", "cover_material", "back_finish")
FIGURES = ("sizes-diameter-by-period", "construction-mould-material-by-period")
MOULDS = ("bone", "wood", "pasteboard", "bone")
HEADINGS = "Button no.,Recorder,Diameter (mm),Date,Mould material,Cover colour,Opened\n"


def invented_rows(number=40, moulds=MOULDS, recorders=("Ada Tarn", "J. Vell")):
    rows = (
        f'{row},"{recorders[row % len(recorders)]}",{13 + row % 7},{1815 + row},'
        f'"{moulds[row % len(moulds)]}",{"green" if row % 5 == 0 else "black"},yes\n'
        for row in range(1, number + 1)
    )
    return HEADINGS + "".join(rows)


@pytest.fixture(scope="session")
def survey_file(tmp_path_factory):
    path = tmp_path_factory.mktemp("surveys") / "tarn.csv"
    path.write_text(invented_rows(), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def survey(survey_file):
    return load_survey([survey_file])


@pytest.fixture(scope="session")
def draft():
    """Draft an article with the usual figures and periods unless told otherwise."""

    def make(survey, figures=FIGURES, size="a5-column", **told):
        told = {"period_scheme": "british-reigns", "compare": COMPARED} | told
        return draft_newsletter(survey, figures, figure_size=size, **told)

    return make


@pytest.fixture(scope="session")
def article(survey, draft):
    return draft(survey, survey_name="The Tarn drawer")


@pytest.fixture(scope="session")
def demo_article(draft):
    return draft(load_survey(["demo"]), survey_name="The demo surveys")
