"""Which unit was meant by a word that is none."""

from __future__ import annotations

from ..problems import nearest
from .spelling import COMPOUNDS, KNOWN, PREFIXES

#: Names and habits → the symbol to write. SP 811 (chapters 6 and 9) rules out names mixed with symbols,
#: abbreviations ("sec", "cc", "mps") and plurals.
_MEANT = {
    "metre": "m", "meter": "m", "gram": "g", "gramme": "g", "gm": "g", "second": "s", "sec": "s",
    "ampere": "A", "amp": "A", "kelvin": "K", "mole": "mol", "candela": "cd", "ohm": "Ω", "hertz": "Hz", "newton": "N",
    "pascal": "Pa", "joule": "J", "watt": "W", "coulomb": "C", "volt": "V", "farad": "F", "siemens": "S",
    "mho": "S", "weber": "Wb", "tesla": "T", "henry": "H", "henries": "H", "lumen": "lm", "lux": "lx",
    "becquerel": "Bq", "gray": "Gy", "sievert": "Sv", "radian": "rad", "degree": "°", "revolution": "rev",
    "minute": "min", "hour": "h", "hr": "h", "day": "d", "year": "yr", "litre": "L", "liter": "L",
    "tonne": "t", "ton": "t", "hectare": "ha", "electronvolt": "eV", "electron_volt": "eV", "parsec": "pc",
    "atmosphere": "atm", "calorie": "cal", "curie": "Ci", "gauss": "G", "dioptre": "D", "diopter": "D",
    "mile": "mi", "feet": "ft", "inches": "in", "yard": "yd", "pound": "lb", "ounce": "oz", "percent": "%",
    "decibel": "dB", "celsius": "°C", "fahrenheit": "°F", "angstrom": "Å", "micron": "µm", "kilo": "kg",
    "mcg": "µg", "cc": "cm³", "ccm": "cm³", "mps": "m/s", "kmh": "km/h", "kph": "km/h", "kmph": "km/h",
    "fps": "ft/s", "per": "/", "°k": "K", "degk": "K", "°f": "°F", "°c": "°C", "rps": "rev/s",
    "minutes": "min", "δk": "K",
    "rand": "ZAR", "zar": "ZAR", "dollar": "USD", "usd": "USD", "euro": "EUR", "eur": "EUR", "gbp": "GBP",
}  # fmt: skip

_PREFIX_NAMES = {
    "femto": "f", "pico": "p", "nano": "n", "micro": "µ", "milli": "m", "centi": "c", "deci": "d",
    "hecto": "h", "kilo": "k", "mega": "M", "giga": "G", "tera": "T",
}  # fmt: skip

#: What a word is split into that runs symbols together; the case of a letter is trusted.
_PARTS = (
    "m", "kg", "s", "A", "K", "mol", "cd", "N", "J", "W", "Pa", "C", "V", "Ω", "F", "T", "H", "Hz", "Wb",
    "g", "h", "mm", "cm", "km", "nm", "ms", "mA", "kA", "mN", "kN", "kJ", "MJ", "kW", "MW", "kV", "mV",
    "kPa", "MPa", "mT", "°C", "rad", "eV", "min", "µm", "µs", "µC", "µF", "nC",
)  # fmt: skip
#: The units that most quantities are given in: the first to think of.
_USUAL = (
    *_PARTS, "mg", "µg", "ns", "µA", "hPa", "kHz", "MHz", "GHz", "pC", "nF", "pF", "mH", "kΩ", "MΩ", "MeV",
    "keV", "GeV", "d", "yr", "L", "mL", "mmol", "°", "u", "rev", "bar", "atm", "lm", "lx", "Bq", "Gy", "Sv",
    "dB", "kat", "cal", "kcal", "mmHg", "t", "ha", "sr", "AU", "ly", "pc", "mi", "in", "ft", "lb", "mW",
    "µT", "mJ", "GW", "GJ", "kWh",
)  # fmt: skip
#: `R` behind a number is the sign of the rand, which stands before it; the code may stand behind.
_SIGNS = {"R": "ZAR"}
#: Products so common that they are meant rather than the nanometre, nanosecond, attosecond and attometre.
_PRODUCTS = {"Nm": "N·m", "Ns": "N·s", "As": "A·s", "Am": "A·m"}
_PLURALS = ("kgs", "cms", "kms", "mins", "lbs", "yrs", "gms", "mls", "hrs", "secs", "amps", "mols", "fts")


def nearest_unit(word: str) -> str | None:
    """The unit that `word` was most likely meant to be, as it should be written; None where nothing is close.

    Args:
        word: a word that is no unit, at most 80 characters.
    """
    return (
        _SIGNS.get(word)
        or _PRODUCTS.get(word)
        or _named(word)
        or _other_case(word)
        or _doubled_prefix(word)
        or _run_together(word)
        or (nearest(word, _USUAL) if len(word) > 2 else None)
    )


def _named(word: str) -> str | None:
    lower = word.lower()
    for name in (lower, lower[:-1]) if lower.endswith("s") else (lower,):
        if name in _MEANT:
            return _MEANT[name]
        for prefix_name, prefix in _PREFIX_NAMES.items():
            base = _MEANT.get(name.removeprefix(prefix_name)) if name.startswith(prefix_name) else None
            if base is not None and prefix + base in KNOWN:
                return prefix + base
    if lower in _PLURALS:
        return lower[:-1] if lower[:-1] in KNOWN else None
    return None


def _other_case(word: str) -> str | None:
    lower = word.lower()
    found = [known for known in (*KNOWN, *COMPOUNDS) if known.lower() == lower]
    if not found:
        return None

    def rank(known: str) -> tuple[bool, int, str]:
        changed = sum(1 for a, b in zip(known, word, strict=True) if a != b)
        return (known not in _USUAL, changed, known)

    best = min(found, key=rank)
    if best not in _USUAL and len(word) == 2 and word[0] in _PARTS:
        return word[0]  # "Nw" is rather a newton than a nanowatt, "hh" an hour than a hectohenry.
    return "".join(KNOWN[best]) if best in KNOWN else best


def _run_together(word: str) -> str | None:
    """`Nms` → "N·m·s": a product needs a space or a dot."""
    if len(word) > 8:
        return None
    splits = [split for split in _splits(word) if 1 < len(split) == len(set(split))]
    if not splits:
        return None

    def rank(split: tuple[str, ...]) -> tuple[int, int]:
        prefixed = sum(1 for part in split if KNOWN[part][0] and part != "kg")
        return (prefixed, len(split))

    best = min(splits, key=rank)
    return "·".join(best)


def _splits(word: str) -> list[tuple[str, ...]]:
    if not word:
        return [()]
    found: list[tuple[str, ...]] = []
    for end in range(1, len(word) + 1):
        head = "".join(KNOWN.get(word[:end], ()))
        if head in _PARTS:
            found += [(head, *rest) for rest in _splits(word[end:])]
    return found


def _doubled_prefix(word: str) -> str | None:
    """`mµm` → "nm", `µkg` → "mg": a unit takes one prefix. Only where a micro sign shows that it is one."""
    for end in (1, 2):
        first = "".join(KNOWN.get(word[:end] + "m", ("", ""))).removesuffix("m")
        prefix, symbol = KNOWN.get(word[end:], ("", ""))
        if not prefix or "µ" not in (first, prefix) or "u" in word:
            continue
        power = PREFIXES.get(first, 99) + PREFIXES[prefix]
        for single, exponent in PREFIXES.items():
            if exponent == power and single + symbol in KNOWN:
                return single + symbol
    return None
