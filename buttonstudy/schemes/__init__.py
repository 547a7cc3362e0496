"""Knowledge kept as tables with their sources, and the loader that reads them."""

from buttonstudy.schemes.fields import Field, fields
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.tables import SchemeError, read_scheme_file, rows

__all__ = [
    "Field",
    "SchemeError",
    "fields",
    "limit",
    "read_scheme_file",
    "rows",
]
