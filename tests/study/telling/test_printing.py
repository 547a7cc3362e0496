import pandas as pd

from buttonstudy.study.telling.printing import printed

TABLE = pd.DataFrame(
    {
        "period": ["early", "late"],
        "examined": [8.24, 39.0],
        "with_term": [3.0, 12.0],
        "share": [0.36407, 0.30769],
        "low": [0.1, 0.18577],
        "high": [0.7, 0.46415],
        "if_none": [0.1, 0.1],
        "if_all": [0.9, 0.775],
        "few": [True, False],
    }
)


def test_few_sets_have_counts_and_no_percentage():
    shown = printed(TABLE)
    shares = shown[["share", "low", "high", "if_none", "if_all"]]
    assert shares.isna().all(axis="columns").tolist() == [True, False]
    assert shown["examined"].tolist() == [8.2, 39.0]


def test_the_study_table_itself_stays_as_it_was():
    before = TABLE.copy()
    assert printed(TABLE).loc[1, "share"] == 0.308
    pd.testing.assert_frame_equal(TABLE, before)


def test_a_table_without_shares_is_only_rounded():
    shown = printed(pd.DataFrame({"median_mm": [15.875], "sets": [3]}))
    assert shown.to_numpy().tolist() == [[15.88, 3]]


def test_a_quarter_stays_a_quarter():
    assert printed(pd.DataFrame({"quantile": [0.25]})).loc[0, "quantile"] == 0.25
