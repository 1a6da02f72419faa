"""Room 0 of the document side: every setting, read strictly from front matter, attributes, keys or options.

What may live here: the settings in force, the table of what each may be, and the decimal signs of languages.
Nothing here knows where a setting came from: it is given names and values with their places, and hands back
every problem that it found.
"""

from .grid import Target, Targets
from .languages import DecimalSign, decimal_sign
from .schema import front_matter_schema
from .settings import LOCAL_NAMES, SETTING_NAMES, Edition, Scope, Settings
from .table import LABELS

__all__ = [
    "LABELS",
    "LOCAL_NAMES",
    "SETTING_NAMES",
    "DecimalSign",
    "Edition",
    "Scope",
    "Settings",
    "Target",
    "Targets",
    "decimal_sign",
    "front_matter_schema",
]
