"""The words with which lines of a situation begin: by them the kind of its scene is known."""

from __future__ import annotations

THINGS = "block|crate|box|trolley|cart|car|body|book|sled|ball|object|mass|load|lamp|picture|sign|bucket"
SURFACES = "surface|table|floor|ground|track|road|incline|slope|ramp|plane"
SURFACE = (
    rf"(?:(?P<finish>rough|smooth|frictionless)\s+)?(?:horizontal\s+|inclined\s+)?(?P<kind>{SURFACES})"
    r"(?:\s+(?:of\s+|at\s+)?(?P<angle>.+))?"
)
ROPES = "thread|threads|string|strings|rope|ropes|cable|cables|wire|wires|chain|chains"
HANGS = (
    rf"(?P<word>{THINGS})(?:\s+(?P<label>.+?))?\s+(?:hanging|hangs)\s+from"
    rf"\s+(?P<what>(?:a|an|the|two|three)?\s*(?:light\s+)?(?:{ROPES}|spring)\b.*)"
)
BODY = (
    r"(?:(?P<sign>positive|negative|neutral)\s+)?(?:point\s+)?"
    r"(?P<word>charge|charged sphere|mass|sphere|particle|electron|proton|planet|moon|star|sun|point)"
    r"(?:\s+(?!at\b)(?P<label>.+?))?(?:\s+at\s+(?P<place>.+))?"
)

#: By which words a line is told to belong to which scene; the first that fits counts.
SCENES: tuple[tuple[str, str], ...] = (
    ("collision", r"(?:before|after)\b.*"),
    ("projectile", r"projectile\b.*"),
    ("hanging", rf"(?:pendulum|lift|elevator)\b.*|{HANGS}"),
    ("standing", r"standing\s+wave\b.*"),
    ("wave", r"(?:transverse|longitudinal)\s+wave\b.*"),
    ("fronts", r"source\b.*"),
    (
        "optics",
        r"(?:thin\s+)?(?:converging|diverging|convex|concave|plane)\s+(?:lens|mirror)\b.*|object,.*|image\b.*|(?:without|no)\s+rays",
    ),
    ("interface", r"(?:interface|boundary)\b.*|(?:incident|refracted|reflected)\s+ray\b.*"),
    (
        "blocks",
        rf"{SURFACE}|(?:{THINGS})\b.*\b(?:on|hanging|hangs)\s.*|(?:block|crate|box|trolley|cart|car|book|sled)\b.*|(?:\w+\s+)?pulley|(?:spring|rope|cable|string|thread|wire)\b.*",
    ),
    (
        "plan",
        rf"{BODY}|(?:(?:positive|negative|neutral)\s+)?(?:point\s+)?(?:charge|charged\s+sphere|mass|sphere|particle|electron|proton|planet|moon|star|sun|point)\b.*|(?:distance|line|rod|angle)\b.*",
    ),
)
