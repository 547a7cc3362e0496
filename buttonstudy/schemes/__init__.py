"""Knowledge kept as tables with their sources, and the loader that reads them."""

from buttonstudy.schemes.cautions import Caution, cautions, cautions_for
from buttonstudy.schemes.conventions import (
    DateConvention,
    convention_table,
    date_convention,
    date_conventions,
)
from buttonstudy.schemes.fields import Field, fields
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.links import leads_back
from buttonstudy.schemes.periods import Period, PeriodScheme, period_scheme, period_schemes
from buttonstudy.schemes.size_classes import (
    SizeClass,
    SizeClassScheme,
    borderline,
    size_class,
    size_class_schemes,
    size_classes,
)
from buttonstudy.schemes.tables import SchemeError, read_scheme_file, rows
from buttonstudy.schemes.units import units
from buttonstudy.schemes.vocabulary import ABSENT, OPENED, STATES, Term, Vocabulary, vocabulary

__all__ = [
    "ABSENT",
    "OPENED",
    "STATES",
    "Caution",
    "DateConvention",
    "Field",
    "Period",
    "PeriodScheme",
    "SchemeError",
    "SizeClass",
    "SizeClassScheme",
    "Term",
    "Vocabulary",
    "borderline",
    "cautions",
    "cautions_for",
    "convention_table",
    "date_convention",
    "date_conventions",
    "fields",
    "leads_back",
    "limit",
    "period_scheme",
    "period_schemes",
    "read_scheme_file",
    "rows",
    "size_class",
    "size_class_schemes",
    "size_classes",
    "units",
    "vocabulary",
]
