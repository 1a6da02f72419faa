"""Figures for the attacks: blocks of class `draw` made from seeds, most often nearly right; and what no picture may hold."""

from __future__ import annotations

import json
import random
import re
from io import StringIO
from typing import Any
from xml.etree import ElementTree

#: What a label, a name, a caption or a unit may try to be.
NASTY = [
    "</svg><script>alert(1)</script>", '"] #panic("x") [', "\\input{x}", "\\write18{id}", "$x^2$", "#read(\"/etc/passwd\")",
    "]]>", "<!--", "&lt;&#60;", "'", '"', "`", "\\", "\\\\", "{", "}", "%", "~", "^^5c", "\x1b[2J", "\u202e", "\u2028", "\x85",
    "\ud800", "\x00", "*a*", "_a_", "@a", "= a", "- a", "/* a", "// a", "1. a", "a" * 400, "ф字🙂", "\\end{tikzpicture}", "--",
    "x: y", "[a](javascript:alert(1))", "<img src=x onerror=alert(1)>", "%%physcalc%%", "\u0301", "´", "''", "ﬁ", "∰",
]  # fmt: skip
NUMBERS = [
    "0", "1", "-1", "2", "3.5", "4", "5", "12", "30", "45", "60", "0.2", "1e399", "-1e399", "1e-399", "1e400", "99999999999999999999",
    "0.000000000001", "1/0", "NaN", "1/3", "-0", "1e30", "6 ± 1", "0 ± 0", "1 ± 1e300", "360", "89.9999999999", "1e-59", "1e59", "",
]  # fmt: skip
UNITS = [
    "",
    "m",
    "N",
    "°",
    "V",
    "Ω",
    "s",
    "m/s",
    "nC",
    "kg",
    "cm",
    "A",
    "%",
    "°C",
    "m/s^2",
    "K",
    "mm",
    "#",
    "]",
]
NAMES = [
    "F",
    "F_g",
    "N",
    "T_1",
    "q_A",
    "A",
    "B",
    "m",
    "m_2",
    "θ",
    "v",
    "R_1",
    "R_2",
    "S",
    "Q",
    "\u202ex",
    "<b>",
    "x_{a,b}",
    "F'",
    "ε",
]

#: Lines of situations and fields, with "#" for a number with its unit and "@" for a name.
LINES = [
    "block @ on the surface", "block @ on a rough incline at #°", "block @ hanging over a pulley", "block @ on top of @",
    "force @ on @, right", "force #N on @, at #° above left", "velocity #m/s of @, at #° above right", "momentum @ of @, left",
    "lamp @ hanging from ropes @ at #° and @ at #°", "ball @ hanging from a thread", "body #kg hanging from a spring",
    "charge @ = #nC", "charge @ = #nC, #m right of @", "charge @ = #nC, (#m; #m)", "point P, #m above @", "point P, midway between @ and @",
    "negative charge @", "positive charge @, #m left of @", "parallel plates", "parallel plates, #m apart", "straight wire, into the page",
    "solenoid", "bar magnet, north at the left", "distance @ from @ to @", "pendulum @, length #m, at #°",
    "projectile @ at #m/s, at #° above right", "projectile, from a height #m", "before: @ at #m/s, right; @ at rest",
    "after: @ and @ at #m/s, left", "converging lens, focal length #m", "diverging lens, focal length #m", "concave mirror, focal length #m",
    "object, height #m, #m from the lens", "image, height #m, #m from the mirror", "without rays",
    "interface: air (#) above glass (#)", "incident ray at #°", "refracted ray at #°", "transverse wave, amplitude #m, wavelength #m",
    "longitudinal wave, # waves", "standing wave on a string, # loops", "standing wave in a pipe, # loops",
    "plane waves through a gap of #m", "wave fronts, wavelength #m", "light string over a pulley", "#", "@",
]  # fmt: skip
CIRCUIT = [
    "battery (#V)", "battery @ (#V, #Ω)", "@", "@ (#Ω)", "R_1 (#Ω)", "R_2 (#Ω)", "switch @ open", "(R_1 | R_2)", "(@ | @, @ | @)",
    "R_1 with voltmeter V", "ammeter A", "variable resistor @", "[@, @] with V", "lamp L (#Ω)", "wire", "3 cells (#V)", "A to B: @ (#Ω)",
    "B to A: battery (#V)", "A to C: @ (#Ω)", "((@ | @), @)",
]  # fmt: skip
_LETTERS = re.compile(r"#(m/s|nC|N|°|m|V|Ω|kg|)|@")


def pick(chance: random.Random, pool: list[str]) -> str:
    return chance.choice(pool)


def amount(chance: random.Random, unit: str = "") -> str:
    if unit and chance.random() < 0.9:
        number = pick(chance, NUMBERS[:13]) if chance.random() < 0.8 else pick(chance, NUMBERS)
        return f"{number} {unit}".strip()
    return f"{pick(chance, NUMBERS)} {pick(chance, UNITS)}".strip()


def line(chance: random.Random, pool: list[str]) -> str:
    """A line with its numbers and names, now and then something else altogether."""
    if chance.random() < 0.03:
        return pick(chance, NASTY)

    def letter(found: re.Match[str]) -> str:
        if chance.random() < 0.05:
            return pick(chance, NASTY)
        return pick(chance, NAMES) if found[0] == "@" else amount(chance, found[1])

    return _LETTERS.sub(letter, pick(chance, pool))


def several(chance: random.Random, key: str, pool: list[str], most: int = 5) -> list[str]:
    return [f"{key}:", *(f"  - {line(chance, pool)}" for _ in range(chance.randint(1, most)))]


def below(chance: random.Random, key: str, values: list[str]) -> list[str]:
    names = chance.sample(NAMES, min(len(values), chance.randint(1, 4)))
    return [f"{key}:", *(f"  {name}: {line(chance, values)}" for name in names)]


def body_of(chance: random.Random) -> str:
    """The body of a block of class `draw`."""
    answers = ["yes", "no", "3", "#", "@"]
    match chance.randrange(5):
        case 0:
            ways = [
                "#N, down",
                "#N, up",
                "#N at #° above left",
                "m g, down",
                "up the slope",
                "perpendicular to the slope",
                "#N, left",
            ]
            lines = below(chance, "forces", ways)
            lines += [*below(chance, "key", NASTY)] if chance.random() < 0.5 else []
            others = ["on", "shape", "slope", "balance", "components", "scale", "values"]
        case 1:
            lines = [
                "graph: "
                + pick(
                    chance,
                    ["v against t", "T^2 against L", "1/v against t", "@ against @", "v in km/h against t"],
                )
            ]
            if chance.random() < 0.6:
                lines += [
                    "points:",
                    "  - " + pick(chance, ["t in s, v in m/s", "L in m, T in s ± 0.02", "v in m/s, t in s"]),
                ]
                lines += [
                    f"  - {pick(chance, NUMBERS)}, {pick(chance, NUMBERS)}"
                    for _ in range(chance.choice([1, 3, 6, 60]))
                ]
            else:
                lines += [
                    "pieces:",
                    *(
                        f"  {amount(chance, 's')} to {amount(chance, 's')}: {line(chance, ['#m/s to #m/s', 'constant', 'to #m/s'])}"
                        for _ in range(3)
                    ),
                ]
            others = [
                "fit",
                "gradient",
                "area",
                "intercept",
                "triangle",
                "worst lines",
                "mark",
                "table",
                "x axis",
                "y axis",
                "curve",
            ]
            answers += [
                "line",
                "line through origin",
                "line with uncertainty",
                "@ in s^2/m",
                "@ at #",
                "v = u + a t for t from # to #",
            ]
        case 2:
            lines, others = several(chance, "situation", LINES), ["values"]
        case 3:
            lines, others = several(chance, "field", LINES[11:24]), ["lines", "equipotentials", "values"]
        case _:
            lines = several(chance, "circuit", CIRCUIT, 3)
            if chance.random() < 0.5:
                lines = [
                    "circuit: "
                    + ", ".join([line(chance, CIRCUIT[:2]), *(line(chance, CIRCUIT) for _ in range(3))])
                ]
            lines += below(chance, "names", ["@", "#"]) if chance.random() < 0.2 else []
            others = ["labels", "currents", "nodes"]
    for key in others:
        if chance.random() < 0.2:
            lines.append(f"{key}: {line(chance, answers)}")
    for key in ("caption", "alt", "why", "on" if "on" in others else "alt"):
        if chance.random() < 0.4 and not any(one.startswith(f"{key}:") for one in lines):
            lines.append(f"{key}: {pick(chance, NASTY)}")
    if chance.random() < 0.3:
        lines.append(
            "width: " + pick(chance, ["8 cm", "20 mm", "1e9 cm", "-1 mm", "٣ cm", "160 mm", "999 mm"])
        )
    if chance.random() < 0.3:
        lines.append("paper: " + pick(chance, ["drawn", "space", "points", "axes", "grid", "nothing", "x"]))
    if chance.random() < 0.2:
        lines.append("marks: " + pick(chance, ["3", "0", "-1", "99999999999"]))
    return "\n".join(lines)


#: Elements and attributes that a picture in a page may have.
_ELEMENTS = {"svg", "title", "path", "circle", "text", "tspan", "g", "rect", "ellipse"}
_SPACE = "{http://www.w3.org/2000/svg}"
#: Commands of TeX that a picture in TikZ may have.
_COMMANDS = re.compile(r"\\([A-Za-z]+|.)", re.DOTALL)
_KNOWN = frozenset(
    ["begin", "end", "useasboundingbox", "path", "node", "fontsize", "selectfont", "textit", "textsubscript", "textsuperscript", "textbackslash", "textasciicircum", "textasciitilde", "textbar", "textquotedbl", "textasciigrave", "textquotesingle", "times", "cdot", "circ", "pm", "mp", "mu", "approx", "to", "infty", "le", "ge", "ell", "parallel", "perp", "surd", "lambda", "alpha", "beta", "gamma", "delta", "varepsilon", "zeta", "eta", "theta", "iota", "kappa", "nu", "xi", "pi", "rho", "sigma", "tau", "upsilon", "phi", "chi", "psi", "omega", "Gamma", "Delta", "Theta", "Lambda", "Xi", "Pi", "Sigma", "Upsilon", "Phi", "Psi", "Omega", "varphi"]
)  # fmt: skip


def check_svg(svg: str) -> None:
    """A picture in a page is one well-formed element, of known kinds, with nothing that runs or fetches."""
    for element in ElementTree.fromstring(svg).iter():
        assert element.tag.removeprefix(_SPACE) in _ELEMENTS, element.tag
        assert not any(name.startswith("on") or name.endswith("href") for name in element.attrib)
        if element.tag == f"{_SPACE}path":
            assert not re.search("nan|inf", element.attrib["d"])


def check_tikz(tikz: str) -> None:
    """A picture in TeX has no commands but its own, and as many braces as it needs."""
    shown = re.sub(r"(?<!\\)%[^\n]*", "", tikz)
    start, end = shown.index(r"\begin{tikzpicture}"), shown.rindex(r"\end{tikzpicture}")
    shown = shown[start : end + len(r"\end{tikzpicture}")]
    assert re.findall(r"\\(?:begin|end)\b.*", shown)[1:] == [r"\end{tikzpicture}"]
    for command in _COMMANDS.findall(shown):
        assert command in _KNOWN or not command.isalpha(), command
    bare = re.sub(r"\\.", "", shown, flags=re.DOTALL)
    assert bare.count("{") == bare.count("}")
    assert not re.search("nan|inf", re.sub(r"\{[^{}]*\}", "", shown).replace(r"\infty", ""))


def check_typst(typst: str) -> None:
    """A picture in Typst has no code but its own: outside its strings, what follows "#" is known."""
    bare = re.sub(r'"(?:[^"\\]|\\.)*"|\\.', "", typst)
    for word in re.findall(r"#(\w*)", bare):
        assert word in ("drawn", "emph", "text", "figure", "box", "block", "align"), word


GIVEN = "m: 2 kg\nm_2: 3 kg\nq: 2 nC\nq_A: -3 nC\nθ: 30°\nv: 3 m/s\na: 2 m/s^2\nR_1: 4 Ω\nR_2: 6 Ω\nε: 12 V"


def a_figure(seed: int) -> None:
    """Draws a figure for one output, and looks at what stands in it."""
    from physcalc_filter.pandoc_entry import run

    chance = random.Random(seed)
    blocks = [
        {"t": "CodeBlock", "c": [["", [kind], []], body]}
        for kind, body in (("given", GIVEN), ("draw", body_of(chance)))
    ]
    edition = {"t": "MetaString", "c": pick(chance, ["paper", "memo", "guide"])}
    meta = {"edition": edition, "draft": {"t": "MetaBool", "c": True}}
    document = {"pandoc-api-version": [1, 23], "meta": meta, "blocks": blocks}
    made = run(json.dumps(document), pick(chance, ["html", "latex", "typst", "docx"]), StringIO())
    assert made is not None
    made.encode("utf-8")
    for format, raw in raw_pieces(json.loads(made)["blocks"]):
        if format == "html" and (found := re.search("<svg.*</svg>", raw, re.DOTALL)):
            check_svg(found[0])
        elif format == "latex" and r"\begin{tikzpicture}" in raw:
            check_tikz(raw)
        elif format == "typst" and "place(" in raw:
            check_typst(raw)


def raw_pieces(tree: Any) -> list[tuple[str, str]]:
    """Every piece of raw markup of a tree, with its format."""
    if isinstance(tree, list):
        return [piece for one in tree for piece in raw_pieces(one)]
    if not isinstance(tree, dict):
        return []
    if tree.get("t") in ("RawBlock", "RawInline"):
        return [(tree["c"][0], tree["c"][1])]
    return raw_pieces(list(tree.values()))
