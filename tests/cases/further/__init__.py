"""Calculations of further kinds, by kind: what the syllabus by topic does not hold."""

from . import change, measured, plane, sets, signs, styles

Case = tuple[str, dict[str, object]]
BLOCKS = (*plane.BLOCKS, *sets.BLOCKS, *signs.BLOCKS, *styles.BLOCKS)
MEASURED = measured.BLOCKS
CHANGES = change.BLOCKS
