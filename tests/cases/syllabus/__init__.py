"""Calculations over the syllabus, by topic."""

from . import electricity, mechanics, modern_and_more, waves_and_heat

BLOCKS = (*mechanics.BLOCKS, *waves_and_heat.BLOCKS, *electricity.BLOCKS, *modern_and_more.BLOCKS)
