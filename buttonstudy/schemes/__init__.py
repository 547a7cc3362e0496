"""Knowledge kept as tables with their sources, and the loader that reads them."""

from buttonstudy.schemes.fields import Field, fields
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.tables import SchemeError, read_scheme_file, rows
from buttonstudy.schemes.vocabulary import ABSENT, STATES, Term, Vocabulary, vocabulary

__all__ = [
    "ABSENT",
    "STATES",
    "Field",
    "SchemeError",
    "Term",
    "Vocabulary",
    "fields",
    "limit",
    "read_scheme_file",
    "rows",
    "vocabulary",
]
