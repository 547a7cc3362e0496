"""Button numbers that stand twice, within a file or in two files."""

from collections import Counter
from collections.abc import Iterator

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.survey.checks.finding import Finding, listed, row_names, words


def repeated_numbers(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell each record whose number another record has too.

    Numbers keep apart by what is written: a prefix given to one file parts its numbers.
    """
    numbers = buttons["button_id"].reset_index(drop=True)
    repeated = numbers[numbers.notna() & numbers.duplicated(keep=False)]
    if repeated.empty:
        return
    most = int(limit("same-numbers-named"))
    files, names = words(buttons, "file"), row_names(buttons)
    for number, places in repeated.groupby(repeated, sort=True).indices.items():
        at = repeated.index[places].to_list()
        in_file = Counter(files[place] for place in at)
        for place in at:
            same = in_file[files[place]] > 1
            others = [names[other] for other in at[: 1 + most] if other != place]
            yield Finding(
                "id-twice" if same else "id-in-two-files",
                place,
                f"Button number {number} stands also in {listed(others, len(at) - 1)}.",
                "button_id",
            )
