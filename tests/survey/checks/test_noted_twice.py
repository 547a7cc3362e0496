"""One button noted in two files: proposed where chance could hardly make two so alike."""

import numpy as np
import pandas as pd

import buttonstudy as bs

# Invented, like the demo: the shares are made up.
FEATURES = {
    "mould_material": (["wood", "bone", "metal", "pasteboard"], [0.4, 0.2, 0.3, 0.1]),
    "mould_shape": (["flat disc", "domed", "shell"], [0.5, 0.3, 0.2]),
    "mould_hole": (["pierced", "absent"], [0.7, 0.3]),
    "hole_fill": (["open", "filled", "thread-filled", "cloth plug"], [0.4, 0.2, 0.2, 0.2]),
    "padding": (["absent", "wool", "wadding", "thread"], [0.5, 0.2, 0.2, 0.1]),
    "cover_material": (["silk", "wool", "velvet", "linen"], [0.4, 0.3, 0.2, 0.1]),
    "cover_colour": (["black", "brown", "blue", "red"], [0.5, 0.2, 0.2, 0.1]),
    "cover_cut": (["circle", "octagon", "square"], [0.5, 0.3, 0.2]),
    "cover_drawn_up": (["gathered on a running thread", "laced across"], [0.6, 0.4]),
    "thread": (["linen", "silk", "cotton"], [0.5, 0.3, 0.2]),
    "back_finish": (["bare", "cloth back", "paper back"], [0.5, 0.3, 0.2]),
    "attachment": (["thread shank", "sewn on", "cloth tuft"], [0.5, 0.3, 0.2]),
}


def survey(number, seed, file):
    rng = np.random.default_rng(seed)
    columns = {name: rng.choice(terms, number, p=p) for name, (terms, p) in FEATURES.items()}
    start = 1826 + 10 * rng.integers(0, 5, number)
    size = np.round(rng.uniform(12, 24, number), 1)
    return [
        {
            "file": file,
            "button_id": f"{file}{row}",
            "diameter_mm": float(size[row]),
            "year_from": int(start[row]),
            "year_to": int(start[row]) + 9,
            **{name: str(values[row]) for name, values in columns.items()},
        }
        for row in range(number)
    ]


def told(findings, rows):
    problems = findings(*rows, whole=True)
    return problems[problems["kind"] == "perhaps-noted-twice"]


def test_a_record_copied_into_another_file_is_proposed_at_both_places(findings):
    first, second = survey(60, 1, "a"), survey(60, 2, "b")
    again = {**first[7], "file": "b", "button_id": "other", "diameter_mm": first[7]["diameter_mm"]}
    found = told(findings, [*first, *second, again])
    assert found["row"].tolist() == [9, 122]
    assert "that of b, row 122 have the same date" in found["problem"].iloc[0]
    assert "and 12 other features in common with none that differs" in found["problem"].iloc[1]


def test_one_feature_that_differs_or_too_few_keep_it_quiet(findings):
    first, second = survey(60, 1, "a"), survey(60, 2, "b")
    other = {**first[7], "file": "b", "button_id": "x", "thread": "catgut"}
    few = {
        name: first[9][name]
        for name in ("diameter_mm", "year_from", "year_to", "cover_material", "cover_colour")
    }
    rows = [*first, *second, other, {**few, "file": "b", "button_id": "y"}]
    assert told(findings, rows).empty


def test_copies_within_one_file_are_not_its_business(findings):
    rows = survey(40, 1, "a")
    assert told(findings, [*rows, {**rows[3], "button_id": "again"}]).empty


def test_two_surveys_of_like_buttons_raise_no_alarm(findings):
    rows = [*survey(400, 3, "a"), *survey(400, 4, "b")]
    assert told(findings, rows).empty


def test_the_records_are_left_as_they_were(csv_file):
    text = pd.DataFrame(survey(30, 1, "a")).drop(columns="file").to_csv(index=False)
    text = text.replace("diameter_mm", "Diameter (mm)").replace("year_from", "Date from")
    text = text.replace("year_to", "Date to")
    paths = [csv_file(text, name="a.csv"), csv_file(text, name="b.csv")]
    pooled = bs.load_survey(paths)
    assert len(pooled.buttons) == 60
    assert "perhaps-noted-twice" in set(pooled.problems["kind"])
