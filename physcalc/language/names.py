"""Names of quantities: a letter or a run of letters, with Greek, a subscript, a delta in front and primes."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

GREEK = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "varepsilon": "ε", "zeta": "ζ",
    "eta": "η", "theta": "θ", "vartheta": "θ", "iota": "ι", "kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν",
    "xi": "ξ", "pi": "π", "rho": "ρ", "sigma": "σ", "tau": "τ", "upsilon": "υ", "phi": "φ", "varphi": "φ",
    "chi": "χ", "psi": "ψ", "omega": "ω",
    "Gamma": "Γ", "Delta": "Δ", "Theta": "Θ", "Lambda": "Λ", "Xi": "Ξ", "Pi": "Π", "Sigma": "Σ",
    "Upsilon": "Υ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω",
}  # fmt: skip

#: Look-alikes that keyboards and word processors produce, and the one letter that is kept.
SAME_LETTER = {"µ": "μ", "ϵ": "ε", "ϑ": "θ", "ϕ": "φ", "ϱ": "ρ", "∆": "Δ", "Ω": "Ω"}

SUBSCRIPTS = dict(zip("₀₁₂₃₄₅₆₇₈₉ₐₑₒₓₕₖₗₘₙₚₛₜᵢᵣᵤᵥ₊₋", "0123456789aeoxhklmnpstiruv+-", strict=True))

LETTER = "A-Za-zΑ-ΡΣ-Ωα-ωµϵϑϕϱ∆Ωℓ"
#: The whole of a name, as one regular expression (the grammar's NAME is the same).
NAME_PATTERN = (
    rf"(?:Delta_|[Δ∆][ ]?)?[{LETTER}]+"
    r"(?:_\{[^{}\n]{1,40}\}|_[A-Za-z0-9Α-Ωα-ωµϵϑϕ]+|[₀₁₂₃₄₅₆₇₈₉ₐₑₒₓₕₖₗₘₙₚₛₜᵢᵣᵤᵥ₊₋]+)?"
    r"(?:['′’]{1,3})?"
    r"(?:\.[xy](?![A-Za-z0-9_]))?"
)
_NAME = re.compile(NAME_PATTERN)
_BLANK = re.compile(r"(?<![^\W\d_]) | (?![^\W\d_])")


class Name(NamedTuple):
    """The name of a quantity. Two spellings of one name (`theta_1`, `θ₁`, `θ_{1}`) are equal.

    It is a tuple since names are looked up more than anything else, and tuples are hashed and compared by Python's
    own code.

    Attributes:
        base: its letters, Greek as the letter itself: "T", "θ", "COP".
        subscript: what stands below, without braces: "net", "k(max)"; empty where there is none.
        delta: whether a Δ stands in front.
        primes: how many primes follow.
        component: "x" or "y" for a component of a vector (`F.x`); empty for the quantity itself.
    """

    base: str
    subscript: str = ""
    delta: bool = False
    primes: int = 0
    component: str = ""

    @property
    def key(self) -> str:
        """The one plain spelling: "Δx", "v_0", "E_{k(max)}", "v'"."""
        below = self.subscript
        if below and not re.fullmatch(r"[^\W_]+", below):
            below = "{" + below + "}"
        return (
            ("Δ" if self.delta else "")
            + self.base
            + (f"_{below}" if below else "")
            + "'" * self.primes
            + (f".{self.component}" if self.component else "")
        )

    @property
    def below(self) -> str:
        """What is printed below: the subscript and the component ("1x", "net,x")."""
        joint = "," if self.component and len(self.subscript) > 1 and not self.subscript.isdigit() else ""
        return self.subscript + joint + self.component

    @property
    def whole(self) -> Name:
        """The quantity that a component belongs to; itself for a whole quantity."""
        return self._replace(component="") if self.component else self

    def along(self, component: str) -> Name:
        """Its component along x or y."""
        return self._replace(component=component)

    def __str__(self) -> str:
        return self.key


def _letters(run: str) -> str:
    run = "".join(SAME_LETTER.get(letter, letter) for letter in run)
    return GREEK.get(run, run)


@lru_cache(maxsize=4096)
def read_name(text: str) -> Name | None:
    """The name that `text` spells as a whole, or None where it is not a name."""
    text = text.strip()
    if len(text) > 80 or not _NAME.fullmatch(text):
        return None
    component = ""
    if text[-2:] in (".x", ".y"):
        text, component = text[:-2], text[-1]
    delta = False
    for mark in ("Delta_", "Δ ", "∆ ", "Δ", "∆"):
        # "Delta_1" is the letter itself with a subscript.
        if text.startswith(mark) and re.match(rf"[{LETTER}]", text[len(mark) :]):
            text, delta = text[len(mark) :], True
            break
    primes = len(text) - len(text.rstrip("'′’"))
    if primes:
        text = text[:-primes]
    below = ""
    if "_" in text:
        text, below = text.split("_", 1)
        # A blank is kept between words alone: F_{A on B}, but E_{k (max)} is E_{k(max)}.
        below = _BLANK.sub("", " ".join(below.strip("{}").split()))
        if not below:
            return None
        below = "".join(SAME_LETTER.get(c, c) for c in below)
        below = GREEK.get(below, below)
    else:
        cut = len(text)
        while cut and text[cut - 1] in SUBSCRIPTS:
            cut -= 1
        below = "".join(SUBSCRIPTS[c] for c in text[cut:])
        text = text[:cut]
    return Name(_letters(text), below, delta, primes, component)
