"""Currencies: their codes, the signs that stand for them, and how many decimals they have.

Codes and minor units: ISO 4217, list one, as published on 2026-01-01. Left out are codes that are spelled as a word
or as a quantity of physics (ALL, MAD, PEN, TOP, TRY, COP): running text is full of those.
"""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Currency:
    """One currency.

    Attributes:
        code: its code of three letters.
        decimals: how many decimals an amount has (the exponent of its minor unit).
        sign: the sign that is printed in place of the code; empty for none.
    """

    code: str
    decimals: int = 2
    sign: str = ""

    @property
    def shown(self) -> str:
        """What is printed for it before digits and in a unit that stands alone."""
        return self.sign or self.code

    @property
    def behind(self) -> str:
        """What is printed for it behind digits, where a letter would be the name of a quantity."""
        return self.code if self.sign.isalpha() else self.shown


_SIGNED = {"ZAR": "R", "USD": "$", "EUR": "€", "GBP": "£"}
_DECIMALS = {
    0: "CLP ISK JPY KRW RWF UGX",
    2: """
       AED ARS AUD BDT BRL BWP CAD CHF CNY CZK DKK EGP EUR GBP GHS HKD HUF IDR ILS INR KES LKR LSL MUR MWK MXN MYR MZN
       NAD NGN NOK NZD PHP PKR PLN SAR SEK SGD SZL THB TZS USD ZAR ZMW
    """,
    3: "JOD KWD",
}

#: Every currency by its code.
CURRENCIES = {
    code: Currency(code, decimals, _SIGNED.get(code, ""))
    for decimals, codes in _DECIMALS.items()
    for code in codes.split()
}
_BY_WORD = CURRENCIES | {sign: CURRENCIES[code] for code, sign in _SIGNED.items()}

_BEFORE = re.compile(
    r"\s*(?P<minus>[-+\u2212]?)(?P<word>[$€£]|[A-Z]{3}|R)(?P<blank>[ \u00a0\u202f]?)(?=\.?[0-9])"
)
#: A sign at the beginning of a unit, as in "0,32 €/kWh".
SIGN = re.compile("[$€£]")
#: The same where the unit stands alone, as in "in R/kWh".
LONE_SIGN = re.compile(r"[$€£]|R(?![A-Za-zÅµμΩ\u2126\u212aℓ_])")


def currency_of(word: str) -> Currency:
    """The currency that a code or a sign names. Raises KeyError."""
    return _BY_WORD[word]


def before_amount(text: str) -> re.Match[str] | None:
    """A currency before the digits of an amount that a text begins with; None where it begins otherwise.

    Its groups are `minus`, `word` (the code or the sign) and `blank`, since "R 5" may be a product as well.
    """
    found = _BEFORE.match(text)
    return found if found is not None and found["word"] in _BY_WORD else None
