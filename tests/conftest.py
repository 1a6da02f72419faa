"""What all tests share: the option that rewrites expected outputs, and the table of worked examples."""

from __future__ import annotations

import os

import pytest
from hypothesis import HealthCheck, settings


def pytest_configure() -> None:
    """No test finds answers of an earlier run, or touches the user's store; tests of the store name their own."""
    os.environ["PHYSCALC_CACHE"] = "off"
    # Time is no matter of tests: a busy machine is no fault.
    settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
    settings.load_profile("untimed")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--accept", action="store_true", help="write what came out into the case files, to be looked over"
    )


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Of the published worked examples that were run, how many came out as published, by topic and shape."""
    tallies: dict[str, dict[str, list[int]]] = {"topic": {}, "shape": {}}
    for outcome in ("passed", "failed"):
        for report in terminalreporter.stats.get(outcome, []):
            for key, value in getattr(report, "user_properties", []):
                kind, _, case = key.partition(" of ")
                if case and kind in tallies:
                    tally = tallies[kind].setdefault(str(value), [0, 0])
                    tally[0] += outcome == "passed"
                    tally[1] += 1
    if not tallies["topic"]:
        return
    terminalreporter.section("published worked examples")
    for kind, rows in tallies.items():
        terminalreporter.write_line(f"by {kind}")
        for name, (solved, total) in sorted(rows.items()):
            terminalreporter.write_line(f"  {name:<24}{solved:>4} / {total}")
