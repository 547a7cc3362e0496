"""Cells and files that a coverage-guided fuzzer makes, against the promises of `tests/fuzz.py`.

Run it by hand, where the package atheris can be had (it is no part of the kit's environment)::

    python tests/fuzz_guided.py lengths -max_total_time=600
    python tests/fuzz_guided.py sheets -max_total_time=1800 FOLDER_OF_FOUND_INPUTS

The first word names a target of `tests/fuzz.py`; what follows goes to the fuzzer. It begins from
the words that the kit's tables know, or from real files, and stops at the first broken promise,
whose input it keeps.
"""

import sys
import tempfile
import warnings
from pathlib import Path

import fuzz


def dictionary(folder: Path) -> Path:
    """Write the words that the fuzzer may put together."""
    path = folder / "words.txt"
    lines = [
        '"' + "".join(f"\\x{byte:02x}" for byte in word.encode("utf-8", "ignore")[:100]) + '"'
        for word in fuzz.words()
        if word
    ]
    path.write_text("\n".join(lines), encoding="ascii")
    return path


def begin_with(folder: Path, of_files: bool) -> Path:
    """Write what the fuzzer begins with."""
    place = folder / "begin"
    place.mkdir()
    inputs = fuzz.real_files() if of_files else [word.encode() for word in fuzz.words()[::15]]
    for number, data in enumerate(inputs):
        (place / f"{number}").write_bytes(data)
    return place


def main() -> None:
    """Run one target."""
    import atheris

    name, *options = sys.argv[1:]
    _, check = fuzz.TARGETS[name]
    of_files = name in ("sheets", "surveys")
    seconds = fuzz.SECONDS_FOR_A_FILE if of_files else fuzz.SECONDS_FOR_A_CELL
    with warnings.catch_warnings(), atheris.instrument_imports(include=["buttonstudy"]):
        warnings.simplefilter("ignore")
        check(b"Button no.,Diam\n1,16 mm\n" if of_files else "16 mm")  # imports what it needs

    def one_input(data: bytes) -> None:
        try:
            fuzz.in_time(check, data if of_files else data.decode("utf-8", "replace"), seconds)
        except Exception as error:
            if not fuzz.allowed(error):
                raise

    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        begun = str(begin_with(place, of_files))
        found = [one for one in options if not one.startswith("-")] or [tempfile.mkdtemp()]
        flags = [one for one in options if one.startswith("-")]
        words = [] if of_files else [f"-dict={dictionary(place)}"]
        atheris.Setup([sys.argv[0], *flags, *words, *found, begun], one_input)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
