"""The words and letters by which the parts of a circuit are known."""

from __future__ import annotations

import re

from ..language.names import Name, read_name
from ..problems import Problem, Text, nearest
from ..problems.figures_circuits import CircuitLarge, CircuitUnreadable, CircuitWordUnknown
from .circuit_parts import SOURCES, Kind, Part

#: The words for each kind of part; the first is the usual one.
WORDS: dict[str, Kind] = {
    "battery": "battery", "cell": "cell", "source": "battery", "power supply": "battery", "supply": "battery",
    "resistor": "resistor", "variable resistor": "variable resistor", "rheostat": "variable resistor",
    "lamp": "lamp", "bulb": "lamp", "light bulb": "lamp", "globe": "lamp", "motor": "motor",
    "thermistor": "thermistor", "light-dependent resistor": "light-dependent resistor",
    "LDR": "light-dependent resistor", "switch": "switch", "ammeter": "ammeter", "voltmeter": "voltmeter",
    "galvanometer": "galvanometer", "fuse": "fuse", "capacitor": "capacitor", "diode": "diode", "LED": "LED",
    "light-emitting diode": "LED", "wire": "wire", "terminals": "terminals",
}  # fmt: skip
#: What a name alone is, by its letter.
_LETTERS: dict[str, Kind] = {
    "R": "resistor", "L": "lamp", "S": "switch", "K": "switch", "A": "ammeter", "V": "voltmeter", "G": "galvanometer",
    "ε": "battery", "E": "battery", "emf": "battery", "EMF": "battery", "C": "capacitor", "D": "diode", "M": "motor",
    "F": "fuse",
}  # fmt: skip
_EMF = ("ε", "E", "emf", "EMF", "U")
_KNOWN = tuple(WORDS)
_ANY = "|".join(re.escape(word) for word in sorted(WORDS, key=len, reverse=True))
_WORD = re.compile(rf"(?:{_ANY})(?![\w-])", re.IGNORECASE)
_LAST = re.compile(rf"\s(?P<word>{_ANY})$", re.IGNORECASE)
_MANY = re.compile(r"(?P<count>[0-9]+)\s+(?:cells|batteries)(?!\w)", re.IGNORECASE)
_ARTICLE = re.compile(r"(?:an?|the)\s+", re.IGNORECASE)
_STATE = re.compile(r"[\s,]+(?P<state>open|closed|reversed)$", re.IGNORECASE)
_STATE_FIRST = re.compile(r"^(?P<state>open|closed|reversed)\s+", re.IGNORECASE)
_PLAIN = re.compile(r"([A-Za-z])([0-9]{1,3})")
_MOST_CELLS = 12


def read_part(head: Text, values: tuple[Text, ...], tail: str, typed: Text) -> Part:
    """A part from its words and its values.

    Args:
        head: the words before the values.
        values: what stands in brackets behind them.
        tail: what stands behind the brackets.
        typed: all of it.

    Raises:
        Problem: it is no part of a circuit.
    """
    article = _ARTICLE.match(head.value)
    if article is not None:
        head = head.part(article.end())
    state = tail
    for pattern in (_STATE, _STATE_FIRST):
        if (found := pattern.search(head.value)) is not None:
            state = found["state"].lower()
            head = head.part(0, found.start()) if pattern is _STATE else head.part(found.end())
    kind: Kind | None = None
    counted, rest = 1, head
    many, word = _MANY.match(head.value), _WORD.match(head.value)
    if many is not None:
        kind, counted, rest = "battery", int(many["count"]), head.part(many.end())
        if not 1 <= counted <= _MOST_CELLS:
            raise CircuitLarge(head.at(0, many.end()), f"{_MOST_CELLS} cells")
    elif word is not None:
        kind, rest = _kind_of(word[0]), head.part(word.end())
    else:
        # "12 V battery": the value first.
        last = _LAST.search(head.value)
        if head.value[:1].isdigit() and last is not None:
            kind, values = _kind_of(last["word"]), (head.part(0, last.start()), *values)
            rest = head.part(len(head.value))
    of = re.match(r"(?:of|=)\s*", rest.value)
    if of is not None:
        values, rest = (rest.part(of.end()), *values), rest.part(len(rest.value))
    name: Name | None = None
    if rest.value:
        given, equals, _ = rest.value.partition("=")
        if equals:
            values = (rest.part(len(given) + 1), *values)
        named = rest.part(0, len(given))
        name = name_typed(named.value)
        if name is None and re.match(r"[0-9]", named.value) and not equals:
            values, named = (named, *values), rest.part(len(rest.value))
        elif name is None:
            raise _unknown(named if kind is not None else head)
    if kind is None:
        kind = _by_letter(name, values, head)
    if state in ("open", "closed") and kind != "switch":
        raise CircuitUnreadable(typed.span, f'"{typed.value}" is no switch', f"take out {state}")
    if state == "reversed" and kind not in (*SOURCES, "diode", "LED"):
        raise CircuitUnreadable(typed.span, f'"{typed.value}" has no poles', "take out reversed")
    if (
        kind in SOURCES
        and name is not None
        and (name.base in _EMF or (len(values) == 1 and _is_r(values[0])))
    ):
        # "battery ε (r)": the name of the emf, which several cells may share.
        values, name = (rest, *values), None
    return Part(0, kind, name, typed, values, state == "open", state == "reversed", counted)


def _kind_of(word: str) -> Kind:
    return next(kind for known, kind in WORDS.items() if known.lower() == word.lower())


def _is_r(text: Text) -> bool:
    name = read_name(text.value)
    return name is not None and name.base in ("r", "R")


def name_typed(typed: str) -> Name | None:
    """The name that a word spells; A1 is A_1."""
    plain = _PLAIN.fullmatch(typed)
    name = Name(plain[1], plain[2]) if plain is not None else read_name(typed)
    return None if name is None or name.component or name.delta else name


def _by_letter(name: Name | None, values: tuple[Text, ...], head: Text) -> Kind:
    """What a part is of which only a name or a value is typed."""
    if name is not None:
        if name.base in _LETTERS:
            return _LETTERS[name.base]
        raise _unknown(head)
    unit = values[0].value.split()[-1] if values and values[0].value else ""
    return "battery" if unit.endswith("V") else "resistor"


def _unknown(head: Text) -> Problem:
    first = head.value.split()[0] if head.value.split() else head.value
    near = nearest(head.value, _KNOWN) or nearest(first, _KNOWN)
    shown = tuple(dict.fromkeys(kind for kind in WORDS.values()))
    return CircuitWordUnknown(head.span, head.value, shown, near)
