"""Parts a cell's wording into words that can be compared with a table's wordings.

People write the same thing in many ways: "Papier-mâché", "papier mache", "PAPIERMACHE". Words
are therefore compared without case, accents, hyphens or plural, and in one spelling. Each word
remembers where it stood, so that what is not understood can be given back as it was written.
"""

import re
import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from typing import NamedTuple

from buttonstudy.schemes.tables import rows

__all__ = ["Word", "clauses", "composed", "join_keys", "key"]

_TOKEN = re.compile(
    r"""
    (?P<word> (?<!\w)(?:[^\W\d_]\.){2,}            # n.a.
            | (?<!\w)[^\W\d_]/[^\W\d_](?!\w)      # n/a, w/o
            | (?<!\w)[wW]/                        # w/ padding
            | \d+(?:[.,]\d+)+                        # 1.5
            | [^\W_]+(?:['’´`][^\W_]+)*
            | [&✓✔☑✗✘☒] )
    | (?P<break> [;,/+|()\[\]{}:\r\n\t•·…] | (?<=\s)[-–—]+(?=\s) | (?<=\w{5})\.(?=\s) )
    | (?P<query> [?¿] )
    """,
    re.VERBOSE,
)
_ARTICLES = frozenset({"a", "an", "the"})


class Word(NamedTuple):
    """One word of a wording.

    Parameters
    ----------
    key
        The word as it is compared; ``"?"`` for a question mark.
    start, end
        Where it stands in the composed text, half-open.
    """

    key: str
    start: int
    end: int


def composed(text: str) -> str:
    """Give a text with each accent joined to its letter, so that a word stays one word."""
    return unicodedata.normalize("NFC", text)


def clauses(text: str) -> list[list[Word]]:
    """Part a composed text at commas, slashes, brackets and the like into lists of words.

    Articles before another word are left out, and so are clauses without a word.

    Examples
    --------
    >>> [[word.key for word in clause] for clause in clauses("the Bones & wood, silk (?)")]
    [['bone', 'and', 'wood'], ['silk'], ['?']]
    """
    parted: list[list[Word]] = [[]]
    for found in _TOKEN.finditer(text):
        if found.lastgroup == "break":
            parted.append([])
        else:
            folded = _fold(found[0]) if found.lastgroup == "word" else "?"
            parted[-1].append(Word(folded, *found.span()))
    return [_without_articles(clause) for clause in parted if clause]


def _without_articles(clause: list[Word]) -> list[Word]:
    """Leave out articles before a word; a last one stays, since "type A" and "A?" are codes."""
    if not any(word.key in _ARTICLES for word in clause):
        return clause
    last = max((place for place, word in enumerate(clause) if word.key != "?"), default=0)
    return [word for place, word in enumerate(clause) if place >= last or word.key not in _ARTICLES]


def join_keys(words: Iterable[Word]) -> str:
    """Give the key of some words in a row, question marks left out."""
    return "".join(word.key for word in words if word.key != "?")


def key(text: str) -> str:
    """Give the key under which a wording is compared; empty if it holds no word.

    Examples
    --------
    >>> key("Papier-mâché") == key("papier mache") == key("PAPIERMACHE")
    True
    >>> key("gray molds") == key("Grey mould")
    True
    """
    return "".join(join_keys(clause) for clause in clauses(composed(text)))


@lru_cache(maxsize=65_536)
def _fold(word: str) -> str:
    """Take case, accents, apostrophes and plural from a word and give it one spelling."""
    letters = unicodedata.normalize("NFKD", word.casefold())
    plain = "".join(mark for mark in letters if mark.isalnum() or mark in "&✓✔☑✗✘☒")
    one = _spellings().get(plain, plain)
    singular = _singular(one)
    return _spellings().get(singular, singular)


def _singular(word: str) -> str:
    """Take an English plural ending off; the same on both sides of a comparison."""
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith("ss"):
        return word[:-1]
    return word


@cache
def _spellings() -> dict[str, str]:
    return {row["variant"]: row["spelling"] for row in rows("spellings")}
