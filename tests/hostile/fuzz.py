"""A coverage-guided fuzzer over everything that reads what an author types; run by hand, for as long as you like.

    pip install atheris
    python tests/hostile/fuzz.py TARGET [options of libFuzzer, such as -max_total_time=600]

TARGET is one of number, unit, formula, quantity, block, sheet, calculation, markdown, tex, entries, figure. What is
raised must be a problem. A crash leaves a file `crash-…`: put its bytes into `hostile_inputs.py` when it is mended.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from io import StringIO
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["physcalc", "physcalc_filter", "nestedtext", "lark"]):
    import physcalc_filter.interactive  # noqa: F401 - so that it is watched
    from physcalc_filter.blocks import BlockPlace, read_block
    from physcalc_filter.latex.entries import read_run
    from physcalc_filter.pandoc_entry import run as run_filter
    from physcalc_filter.sources import Source, scan_markdown, scan_tex, weave

    import physcalc
    from physcalc.exact import read_number
    from physcalc.language import parse_formula
    from physcalc.language.quantities import read_quantity
    from physcalc.problems import Problem, Span, Text
    from physcalc.sheets.contents import contents_of
    from physcalc.sheets.entries import sheet_of
    from physcalc.sheets.nodes import read_nodes
    from physcalc.units import read_unit


def number(text: str) -> None:
    read_number(Text(text), 0, ",")


def unit(text: str) -> None:
    read_unit(Text(text))


def formula(text: str) -> None:
    parse_formula(Text(text))


def quantity(text: str) -> None:
    read_quantity(Text(text), ".")


def block(text: str) -> None:
    read_block(text, BlockPlace(Span(), (), "calc"))


def sheet(text: str) -> None:
    faults: list[Problem] = []
    contents = contents_of(read_nodes(text, "own.yaml"), faults.append)
    sheet_of(contents, "own", ".")


def calculation(text: str) -> None:
    try:
        physcalc.calculate(text, {"m": "2 kg", "a": "3 m/s^2", "Q_1": "-2 µC"}, sheet="school", lang="en-ZA")
    except physcalc.CalculationFailed:
        return


def markdown(text: str) -> None:
    scan_markdown(Source("a.md", text))


def tex(text: str) -> None:
    woven, _ = weave(Source("nowhere/a.tex", text), Path("nowhere"))
    scan_tex(woven)


def entries(text: str) -> None:
    read_run(Source("a.physin", f"P 1 signs main\n{text}"))


def figure(text: str) -> None:
    blocks = [{"t": "CodeBlock", "c": [["", ["draw"], []], text]}]
    meta = {"edition": {"t": "MetaString", "c": "guide"}, "draft": {"t": "MetaBool", "c": True}}
    document = {"pandoc-api-version": [1, 23], "meta": meta, "blocks": blocks}
    run_filter(json.dumps(document), "html", StringIO())


TARGETS: dict[str, Callable[[str], None]] = {
    "number": number, "unit": unit, "formula": formula, "quantity": quantity, "block": block, "sheet": sheet,
    "calculation": calculation, "markdown": markdown, "tex": tex, "entries": entries, "figure": figure,
}  # fmt: skip


def run(data: bytes) -> None:
    text = atheris.FuzzedDataProvider(data).ConsumeUnicodeNoSurrogates(2000)
    try:
        TARGETS[TARGET](text)
    except Problem:
        return


if __name__ == "__main__":
    TARGET = sys.argv[1]
    atheris.Setup([sys.argv[0], *sys.argv[2:]], run)
    atheris.Fuzz()
