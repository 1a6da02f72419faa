"""A figure that cannot be drawn hides what only follows from it, and nothing else."""

from __future__ import annotations

from physcalc_filter.pipeline import check
from physcalc_filter.sources import Source

HEAD = "# Question 1 {.question}\n\n"
FORCES = "```{.draw}\nforces:\n  F: 3 kg, up\n```\n\n"
CIRCUIT = "```{.draw}\ncircuit: battery (9 V), resistorr R_1\n```\n\n"
CALC = "```{.calc}\nformula: P = I^2 R\nfind: P in W\n```\n"


def slugs(text: str) -> list[str]:
    return [problem.slug for problem in check(Source("a.md", HEAD + text)).problems]


def test_forces_find_nothing_so_a_missing_name_is_a_mistake_beside_them() -> None:
    assert slugs(FORCES + CALC) == ["force-dimension", "name-without-value"]


def test_a_circuit_would_have_found_the_current() -> None:
    found = slugs(CIRCUIT + CALC)
    assert found == ["circuit-word-unknown"]
