"""The decimal sign that a language writes, and where the sign of a currency stands in it."""

from __future__ import annotations

from typing import Literal

DecimalSign = Literal[".", ","]
MoneyPlace = Literal["before", "apart", "behind"]

# Common practice, as locale data has it; ISO 80000-1 allows both signs and leaves it to the language.
_COMMA_LANGUAGES = frozenset(
    {
        "af", "az", "be", "bg", "bs", "ca", "cs", "da", "de", "el", "es", "et", "eu", "fi", "fo", "fr", "gl",
        "hr", "hu", "hy", "id", "is", "it", "ka", "kk", "lt", "lv", "mk", "nb", "nl", "nn", "no", "pl", "pt",
        "ro", "ru", "sk", "sl", "sq", "sr", "sv", "tr", "uk", "uz", "vi",
    }
)  # fmt: skip

# Regions that differ from their language: South Africa writes the comma in all its languages, German and
# Italian Switzerland the point, and so do Mexico, most of Central America and the Caribbean in Spanish.
# Common practice.
_COMMA_REGIONS = frozenset({"za"})
_POINT_REGIONS = {
    "de": frozenset({"ch", "li"}),
    "it": frozenset({"ch"}),
    "es": frozenset(
        {"419", "bz", "cu", "do", "gt", "hn", "mx", "ni", "pa", "pe", "pr", "sv", "us"},
    ),
}


def decimal_sign(lang: str) -> DecimalSign:
    """The decimal sign of a language tag ("en-ZA", "de"); the point where the language is not known."""
    language, *rest = lang.lower().replace("_", "-").split("-")
    if not _COMMA_REGIONS.isdisjoint(rest):
        return ","
    if not _POINT_REGIONS.get(language, frozenset()).isdisjoint(rest):
        return "."
    return "," if language in _COMMA_LANGUAGES else "."


# Unicode CLDR, as Babel 2.19 has it: how each language sets an amount of euros.
_MONEY: dict[str, MoneyPlace] = {
    "de": "behind",
    "es": "behind",
    "fr": "behind",
    "nl": "apart",
    "pt": "behind",
}
_MONEY_APART = frozenset({"de-at", "de-ch", "de-li", "pt-br"})


def money_place(lang: str) -> MoneyPlace:
    """Where the sign of a currency stands in a language: straight before the digits where it is not known."""
    language, *rest = lang.lower().replace("_", "-").split("-")
    region = next((part for part in rest if len(part) in (2, 3)), "")
    if f"{language}-{region}" in _MONEY_APART:
        return "apart"
    if language == "es" and region not in ("", "es"):
        return "before"
    return _MONEY.get(language, "before")
