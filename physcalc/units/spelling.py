"""The units this engine knows: how each is written, how it may be typed, which prefixes it takes.

A new unit is one line of `SYMBOLS`; then `python -m physcalc.units.registry` brings `table.py` along.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

#: SI prefixes (SI Brochure, 9th ed., table 7) as they are written, with their powers of ten.
PREFIXES = {
    "q": -30, "r": -27, "y": -24, "z": -21, "a": -18, "f": -15, "p": -12, "n": -9, "µ": -6, "m": -3, "c": -2,
    "d": -1, "da": 1, "h": 2, "k": 3, "M": 6, "G": 9, "T": 12, "P": 15, "E": 18, "Z": 21, "Y": 24, "R": 27,
    "Q": 30,
}  # fmt: skip
#: Other ways to type a prefix: the Greek letter and the Latin one that stand in for the micro sign.
_TYPED_PREFIXES = {"μ": "µ", "u": "µ"}

_ALL = tuple(PREFIXES)
_LARGE = ("k", "M", "G")


@dataclass(frozen=True, slots=True)
class Symbol:
    """One unit, without prefix.

    Attributes:
        written: the symbol as it is printed.
        recipe: pint's names for what it is made of, each with its power. Only this table names units to pint.
        typed: other spellings that are read as it.
        prefixes: the prefixes it may carry.
        times: our own exact factor beside the recipe.
        pi: power of π in the factor. Angles and the parsec hold π, which pint knows to 50 digits only.
        angle: whether it measures a plane angle.
        logarithmic: whether it is the logarithm of a ratio.
    """

    written: str
    recipe: tuple[tuple[str, int], ...]
    typed: tuple[str, ...] = ()
    prefixes: tuple[str, ...] = ()
    times: Fraction = Fraction(1)
    pi: int = 0
    angle: bool = False
    logarithmic: bool = False


def _plain(written: str, name: str, *typed: str, prefixes: tuple[str, ...] = ()) -> Symbol:
    return Symbol(written, ((name, 1),), typed, prefixes)


_SYMBOLS = (
    # SI base and derived units; the gram stands for the kilogram, since prefixes go to it.
    _plain("m", "meter", prefixes=_ALL),
    _plain("g", "gram", prefixes=_ALL),
    _plain("s", "second", prefixes=_ALL),
    _plain("A", "ampere", prefixes=_ALL),
    _plain("K", "kelvin", "\u212a", prefixes=_ALL),
    _plain("mol", "mole", prefixes=_ALL),
    _plain("cd", "candela", prefixes=_ALL),
    _plain("Hz", "hertz", prefixes=_ALL),
    _plain("N", "newton", prefixes=_ALL),
    _plain("Pa", "pascal", prefixes=_ALL),
    _plain("J", "joule", prefixes=_ALL),
    _plain("W", "watt", prefixes=_ALL),
    _plain("C", "coulomb", prefixes=_ALL),
    _plain("V", "volt", prefixes=_ALL),
    _plain("F", "farad", prefixes=_ALL),
    # The letter omega and the sign U+2126, which Unicode keeps for old texts only.
    _plain("Ω", "ohm", "\u2126", "ohm", "Ohm", prefixes=_ALL),
    _plain("S", "siemens", prefixes=_ALL),
    _plain("Wb", "weber", prefixes=_ALL),
    _plain("T", "tesla", prefixes=_ALL),
    _plain("H", "henry", prefixes=_ALL),
    _plain("lm", "lumen", prefixes=_ALL),
    _plain("lx", "lux", prefixes=_ALL),
    _plain("Bq", "becquerel", prefixes=_ALL),
    _plain("Gy", "gray", prefixes=_ALL),
    _plain("Sv", "sievert", prefixes=_ALL),
    _plain("kat", "katal", prefixes=_ALL),
    _plain("°C", "degree_Celsius", "degC", "ºC", "˚C", "\u2103"),
    # Angles.
    Symbol("rad", (("radian", 1),), (), _ALL, angle=True),
    Symbol("°", (("radian", 1),), ("deg", "º", "˚"), times=Fraction(1, 180), pi=1, angle=True),
    Symbol("rev", (("radian", 1),), (), times=Fraction(2), pi=1, angle=True),
    _plain("sr", "steradian"),
    # Units used beside the SI (SI Brochure, table 8), and the year of 365.25 days.
    _plain("min", "minute"),
    _plain("h", "hour"),
    _plain("d", "day"),
    _plain("yr", "julian_year", "y", prefixes=_LARGE),
    _plain("L", "liter", "l", "ℓ", prefixes=_ALL),
    _plain("t", "metric_ton", prefixes=_LARGE),
    _plain("ha", "hectare"),
    _plain("eV", "electron_volt", prefixes=_ALL),
    _plain("u", "unified_atomic_mass_unit", "amu"),
    _plain("Da", "dalton", prefixes=_LARGE),
    _plain("AU", "astronomical_unit", "au"),
    _plain("ly", "light_year", prefixes=_LARGE),
    # The IAU's exact parsec (resolution B2 of 2015): 648 000/π astronomical units.
    Symbol("pc", (("astronomical_unit", 1),), (), _LARGE, times=Fraction(648000), pi=-1),
    _plain("Å", "angstrom", "\u212b", "A\u030a"),
    # Pressure, heat, radioactivity, magnetism, optics.
    _plain("bar", "bar", prefixes=_ALL),
    _plain("atm", "standard_atmosphere"),
    _plain("mmHg", "millimeter_Hg"),
    _plain("cmHg", "centimeter_Hg"),
    _plain("Torr", "torr", "torr", prefixes=("m", "µ")),
    _plain("cal", "thermochemical_calorie", prefixes=("k", "M")),
    _plain("Ci", "curie", prefixes=_ALL),
    # pint's own gauss has the dimension of the Gaussian system; ours is a ten-thousandth of a tesla.
    Symbol("G", (("tesla", 1),), (), ("µ", "m", "k"), times=Fraction(1, 10000)),
    Symbol("D", (("meter", -1),), ("dpt",)),
    # Customary units that still turn up in problems.
    _plain("mi", "mile"),
    _plain("in", "inch", "inch"),
    _plain("ft", "foot"),
    _plain("yd", "yard"),
    _plain("nmi", "nautical_mile"),
    _plain("knot", "knot"),
    _plain("lb", "pound"),
    _plain("oz", "ounce"),
    _plain("slug", "slug"),
    _plain("lbf", "force_pound"),
    _plain("kgf", "force_kilogram"),
    _plain("psi", "pound_force_per_square_inch"),
    _plain("hp", "horsepower"),
    _plain("dyn", "dyne"),
    _plain("erg", "erg"),
    _plain("°F", "degree_Fahrenheit", "degF", "ºF", "˚F"),
    # Energies of particles over c and c² give momenta and masses: MeV/c².
    _plain("c", "speed_of_light"),
    # Ratios.
    Symbol("%", (), times=Fraction(1, 100)),
    Symbol("dB", (), logarithmic=True),
)

#: Every unit by the symbol that is printed.
SYMBOLS = {symbol.written: symbol for symbol in _SYMBOLS}

#: Spellings of a temperature difference, which is never counted from a zero point.
DIFFERENCES = {
    mark + typed: written
    for written in ("°C", "°F")
    for typed in (written, *SYMBOLS[written].typed)
    for mark in ("Δ", "∆", "delta_")
}

#: Spellings that stand for several factors: typed → (symbol as written, power) in order.
COMPOUNDS = {
    "rpm": (("rev", 1), ("min", -1)),
    "mph": (("mi", 1), ("h", -1)),
} | {
    prefix + unit + "h": ((prefix + unit, 1), ("h", 1))
    for unit, prefixes in (("W", ("", "k", "M", "G", "T")), ("A", ("", "m", "k")))
    for prefix in prefixes
}

#: Prefixed symbols that, divided by, are far more often two symbols run together: `ms-1`. Reading refuses
#: them so; writing puts them in brackets.
RUN_TOGETHER = {"ms": ("m", "s"), "Ts": ("T", "s"), "mN": ("m", "N"), "mK": ("m", "K")}
#: Those among them that are in doubt below a solidus too: `W/mK`, where `V/ms` is clear.
DOUBTFUL_BELOW = frozenset({"mK"})


def _known() -> dict[str, tuple[str, str]]:
    known: dict[str, tuple[str, str]] = {}
    for symbol in _SYMBOLS:
        known |= dict.fromkeys((symbol.written, *symbol.typed), ("", symbol.written))
    for symbol in _SYMBOLS:
        for prefix in symbol.prefixes:
            heads = [prefix, *(typed for typed, meant in _TYPED_PREFIXES.items() if meant == prefix)]
            for head in heads:
                for typed in (symbol.written, *symbol.typed):
                    # A unit's own symbol beats a prefixed one: "min" is a minute, "cd" a candela.
                    known.setdefault(head + typed, (prefix, symbol.written))
    return known


#: Every spelling of one unit, prefixes included → (prefix, symbol) as they are written.
KNOWN = _known()

#: Every symbol as printed, prefix included → (prefix, symbol).
WRITTEN = {prefix + symbol: (prefix, symbol) for prefix, symbol in KNOWN.values()}
