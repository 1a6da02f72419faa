"""Words that a working says between its formulas, by language: two roots, the one that is taken and why.

The words are common usage of school books; no source.
"""

from __future__ import annotations

from collections.abc import Mapping

from .words import in_language

_TABLE: Mapping[str, Mapping[str, str]] = {
    "or": {"en": "or", "af": "of", "de": "oder", "fr": "ou", "nl": "of", "es": "o", "pt": "ou"},
    "taken": {
        "en": "taken", "af": "gekies", "de": "gewählt", "fr": "retenu", "nl": "gekozen", "es": "se toma",
        "pt": "escolhido",
    },
    "magnitude asked": {
        "en": "the magnitude is asked", "af": "die grootte word gevra", "de": "gefragt ist der Betrag",
        "fr": "on demande la valeur absolue", "nl": "gevraagd is de grootte", "es": "se pide el módulo",
        "pt": "pede-se o módulo",
    },
    "is": {
        "en": "{what} is {how}", "af": "{what} is {how}", "de": "{what} ist {how}", "fr": "{what} est {how}",
        "nl": "{what} is {how}", "es": "{what} es {how}", "pt": "{what} é {how}",
    },
    "positive": {
        "en": "{way} is positive", "af": "{way} positief", "de": "{way} positiv", "fr": "{way} positif",
        "nl": "{way} positief", "es": "{way} positivo", "pt": "{way} positivo",
    },
    "not negative": {
        "en": "not negative", "af": "nie negatief nie", "de": "nicht negativ", "fr": "positif ou nul",
        "nl": "niet negatief", "es": "no negativo", "pt": "não negativo",
    },
    "more than zero": {
        "en": "more than zero", "af": "groter as nul", "de": "größer als null", "fr": "supérieur à zéro",
        "nl": "groter dan nul", "es": "mayor que cero", "pt": "maior que zero",
    },
    "more than": {
        "en": "more than", "af": "meer as", "de": "größer als", "fr": "supérieur à", "nl": "groter dan",
        "es": "mayor que", "pt": "maior que",
    },
    "at least": {
        "en": "at least", "af": "minstens", "de": "mindestens", "fr": "au moins égal à", "nl": "minstens",
        "es": "al menos", "pt": "pelo menos",
    },
    "less than": {
        "en": "less than", "af": "minder as", "de": "kleiner als", "fr": "inférieur à", "nl": "kleiner dan",
        "es": "menor que", "pt": "menor que",
    },
    "at most": {
        "en": "at most", "af": "hoogstens", "de": "höchstens", "fr": "au plus égal à", "nl": "hoogstens",
        "es": "como máximo", "pt": "no máximo",
    },
    "and": {"en": "and", "af": "en", "de": "und", "fr": "et", "nl": "en", "es": "y", "pt": "e"},
}  # fmt: skip


def remark(key: str, lang: str, **parts: str) -> str:
    """A word or sentence in the language of a document, or in English where the table has not that language.

    Args:
        key: its key.
        lang: a language tag, of which the first part counts.
        parts: what stands in the place of the names in braces.
    """
    return in_language(_TABLE[key], lang, **parts)
