from buttonstudy.publish.surveys import about


def test_a_report_is_named_after_its_survey(tmp_path):
    folder = tmp_path / "Smith's buttons"
    folder.mkdir()
    assert about([folder]).name == "smith-s-buttons"
    assert about([folder]).title == "Smith's buttons"
    assert about(["my_survey.xlsx"]).title == "My survey"
    assert about(["a.csv", "b.csv", "c.csv"]).name == "a-and-2-more"


def test_no_survey_stands_for_the_invented_one():
    assert about().demo
    assert about(["demo"]).demo
    assert not about(["demo.csv"]).demo


def test_a_survey_is_called_as_asked_and_its_folder_as_its_file():
    told = about(["sv.csv"], " Buttons of\tEmberby ")
    assert (told.title, told.name) == ("Buttons of Emberby", "sv")
    assert about((), "Our drawers").title == "Our drawers"
    assert about(["sv.csv"], " ").title == "Sv"
    assert len(about(["sv.csv"], "word " * 100).title) <= 200
