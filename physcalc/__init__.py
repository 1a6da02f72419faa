"""physcalc: physics calculations solved exactly, checked, and written out as working.

The engine: it knows nothing of documents, of files (but its own sheets) or of printing. The stages stand in
`engine`; each room's own docstring says what may live in it.

For use from Python: `calculate` takes the text of a calculation and gives a `Solution` with values, steps and TeX.
What stands in `__all__` keeps its name and meaning from version to version; nothing else is promised.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .problems import Problem
    from .solution import CalculationFailed, Solution, Step, Value

__version__ = "0.1.0"

__all__ = ["CalculationFailed", "Problem", "Solution", "Step", "Value", "calculate"]


def calculate(text: str, given: Mapping[str, str] | None = None, **settings: object) -> Solution:
    """Solve one calculation, given as the text of a block of class `calc`.

    Args:
        text: the block's lines, as in a document: `formula: …`, `find: …`, perhaps `given:` with data below it.
        given: further data, by name: `{"m": "640 kg", "a": "0.75 m/s^2"}`; the text's own data win.
        settings: settings as front matter has them, with `_` for `-`: `lang="en-ZA"`, `sheet="school"`,
            `signs="magnitudes"`. Without `lang` the decimal sign is a point.

    Returns:
        The values and the working.

    Raises:
        CalculationFailed: it cannot be read or solved, or a typed answer in it disagrees.
        TypeError: the text is none.

    >>> solution = calculate("formula: W = F x\\nfind: W in J", given={"F": "12 N", "x": "2.5 m"})
    >>> print(solution["W"].number)
    30
    """
    if not isinstance(text, str):
        raise TypeError(f"a calculation is the text of its lines, not {type(text).__name__}")
    return _reader()(text, given or {}, settings)


def _reader() -> Callable[[str, Mapping[str, str], Mapping[str, object]], Solution]:
    """What reads the text of a block and has it solved: the engine does not know the language of documents.

    A package that does offers its reader under this name when it is installed, as the document side of this project
    does (https://packaging.python.org/specifications/entry-points/).

    Raises:
        RuntimeError: no such package is installed.
    """
    from importlib.metadata import entry_points  # Here: only a calculation asks for it.

    for found in entry_points(group="physcalc.readers", name="block"):
        reader: Callable[[str, Mapping[str, str], Mapping[str, object]], Solution] = found.load()
        return reader
    raise RuntimeError(
        "no reader of blocks is installed: install physcalc with pip, not from a copied folder"
    )


def __getattr__(name: str) -> object:
    # The classes are there without being loaded by those who only want the version.
    if name in ("CalculationFailed", "Solution", "Step", "Value"):
        from . import solution

        return getattr(solution, name)
    if name == "Problem":
        from .problems import Problem

        return Problem
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
