"""The keys that blocks of calculations and of options may have."""

from __future__ import annotations

#: The keys of a calculation, settings aside.
CALCULATION_KEYS = (
    "given", "use", "formula", "find", "take", "answer", "show", "accept", "marks", "steps", "or", "slips",
    "why", "change", "bands",
)  # fmt: skip
#: The keys of a block of options, settings and letters aside.
OPTIONS_KEYS = ("given", "of", "answer", "marks", "why")
#: The letters that options may have.
OPTION_LETTERS = tuple("ABCDEFGH")
