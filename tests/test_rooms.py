"""The plan of the engine's rooms, kept: who imports whom, one door a library, nothing that runs a text."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

import physcalc

ROOT = Path(physcalc.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))

#: A room imports only rooms with a lower number; what stands beside a room has its number and a letter of order.
ROOMS = {
    "limits": -1.0, "witness": -1.0,
    "problems": 0.0, "exact": 1.0, "units": 2.0, "language": 3.0, "sheets": 4.0, "checking": 5.0, "solve": 6.0,
    "steps": 7.0, "compare_style": 7.5, "compare": 8.0, "compare_parts": 8.1, "accepted": 8.1, "taken": 8.1,
    "vectors": 8.5, "change": 8.6, "render": 9.0, "options": 9.1, "methods": 9.2, "bands": 9.25,
    "constants": 9.3, "method": 9.4, "marking": 9.5, "figures": 9.6, "engine": 10.0, "solution": 10.5, "__init__": 11.0,
}  # fmt: skip

#: The one room (or module) where a library may be imported.
DOORS = {
    "lark": "language/", "pint": "units/registry.py", "yaml": "sheets/", "mpmath": "exact/",
    "uncertainties": "exact/",
}  # fmt: skip
STRANGERS = {
    "physcalc_filter",
    "sympy",
    "filter",
    "panflute",
    "click",
    "pypandoc",
    "typst",
    "nestedtext",
    "numpy",
    "scipy",
}
RUNS_TEXT = {
    "eval",
    "exec",
    "compile",
    "sympify",
    "parse_expr",
    "lambdify",
    "__import__",
}


def name_of(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def room_of(path: Path) -> str:
    parts = path.relative_to(ROOT).parts
    return parts[0] if len(parts) > 1 else path.stem


def imports(path: Path) -> list[tuple[str, int]]:
    """Every module imported, absolutely named, with its line; inside functions too."""
    found: list[tuple[str, int]] = []
    package = ["physcalc", *path.relative_to(ROOT).parts[:-1]]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(alias.name, node.lineno) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            stem = ".".join([*base, *([node.module] if node.module else [])])
            if stem == "physcalc" or (node.level and not node.module):
                found += [(f"{stem}.{alias.name}", node.lineno) for alias in node.names]
            else:
                found.append((stem, node.lineno))
    return found


def test_every_room_has_a_number() -> None:
    assert {room_of(path) for path in MODULES} == set(ROOMS)


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_room_imports_only_lower_rooms(path: Path) -> None:
    room = room_of(path)
    for module, line in imports(path):
        if not module.startswith("physcalc."):
            continue
        other = module.split(".")[1]
        assert other in ROOMS, f"{name_of(path)}:{line} imports {module}"
        assert other == room or ROOMS[other] < ROOMS[room], f"{name_of(path)}:{line} imports {other}"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_each_library_has_its_one_door(path: Path) -> None:
    for module, line in imports(path):
        library = module.split(".")[0]
        assert library not in STRANGERS, f"{name_of(path)}:{line} imports {library}"
        known = library in sys.stdlib_module_names or library == "physcalc" or library in DOORS
        assert known, f"{name_of(path)}:{line} imports {library}, which has no door"
        if library in DOORS:
            assert name_of(path).startswith(DOORS[library]), f"{name_of(path)}:{line} imports {library}"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_nothing_runs_a_text(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            function = node.func
            name = function.id if isinstance(function, ast.Name) else ""
            if isinstance(function, ast.Attribute) and not _of_re(function):
                name = function.attr
            assert name not in RUNS_TEXT, f"{name_of(path)}:{node.lineno} calls {name}"


def _of_re(function: ast.Attribute) -> bool:
    return isinstance(function.value, ast.Name) and function.value.id == "re"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_every_module_says_what_it_is(path: Path) -> None:
    words = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    assert words, f"{name_of(path)} has no docstring"
    assert words.strip().endswith((".", ":", ")", "?"))


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_backslashes_of_maths_stand_in_the_rendering_room_alone(path: Path) -> None:
    """A string that TeX would obey: a backslash and a letter of its commands."""
    if room_of(path) == "render" or name_of(path) == "language/messages.py":
        # The table of syntax messages quotes what authors type by mistake.
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            assert not any(
                word in node.value for word in (r"\frac", r"\sqrt", r"\text", r"\left", r"\times")
            ), f"{name_of(path)}:{node.lineno}"


def test_the_cluster_has_its_one_door() -> None:
    """On the document side: who reaches a cluster, and who may not."""
    filter_root = (
        ROOT.parent / "filter" if (ROOT.parent / "filter").is_dir() else ROOT.parent / "physcalc_filter"
    )
    doors = set()
    for path in filter_root.rglob("*.py"):
        named = [
            alias.name if isinstance(node, ast.Import) else node.module or ""
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Import | ast.ImportFrom)
            for alias in node.names
        ]
        if any(name.split(".")[0] in ("distributed", "dask") for name in named):
            doors.add(path.relative_to(filter_root).as_posix())
        if path.parent.name == "shelf" and path.parent.parent == filter_root:
            assert not any(name.split(".")[0] in ("cli", "click") for name in named), path.name
    assert doors == {"shelf/cluster.py"}
