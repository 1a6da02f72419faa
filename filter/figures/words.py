"""The words that figures say of themselves: in keys beside them, and in the description for those who do not see."""

from __future__ import annotations

from collections.abc import Mapping

#: Each word or sentence by language. Names in braces are filled in.
_TABLE: Mapping[str, Mapping[str, str]] = {
    "free-body": {
        "en": "Free-body diagram of {on}", "af": "Vryliggaamdiagram van {on}", "de": "Kräfteplan für {on}",
        "fr": "Bilan des forces sur {on}",
        "nl": "Krachtendiagram van {on}",
        "es": "Diagrama de cuerpo libre de {on}",
        "pt": "Diagrama de corpo livre de {on}",
    },
    "free-body-point": {
        "en": "Free-body diagram", "af": "Vryliggaamdiagram", "de": "Kräfteplan", "fr": "Bilan des forces",
        "nl": "Krachtendiagram", "es": "Diagrama de cuerpo libre", "pt": "Diagrama de corpo livre",
    },
    "on-slope": {
        "en": "on a slope of {angle}",
        "af": "op ’n helling van {angle}",
        "de": "auf einer Ebene mit der Neigung {angle}",
        "fr": "sur un plan incliné à {angle}",
        "nl": "op een helling van {angle}",
        "es": "sobre un plano inclinado de {angle}",
        "pt": "num plano inclinado de {angle}",
    },
    "label": {
        "en": "Label", "af": "Byskrif", "de": "Bezeichnung", "fr": "Légende", "nl": "Label", "es": "Rótulo",
        "pt": "Legenda",
    },
    "meaning": {
        "en": "What it is", "af": "Wat dit is", "de": "Bedeutung", "fr": "Signification", "nl": "Betekenis",
        "es": "Significado", "pt": "Significado",
    },
    "scale": {
        "en": "Scale: 1 cm for {size}", "af": "Skaal: 1 cm vir {size}", "de": "Maßstab: 1 cm für {size}",
        "fr": "Échelle : 1 cm pour {size}", "nl": "Schaal: 1 cm voor {size}", "es": "Escala: 1 cm para {size}",
        "pt": "Escala: 1 cm para {size}",
    },
    "up": {
        "en": "up", "af": "op", "de": "nach oben", "fr": "vers le haut",
        "nl": "omhoog", "es": "hacia arriba", "pt": "para cima",
    },
    "down": {
        "en": "down", "af": "af", "de": "nach unten", "fr": "vers le bas",
        "nl": "omlaag", "es": "hacia abajo", "pt": "para baixo",
    },
    "left": {
        "en": "left", "af": "links", "de": "nach links", "fr": "vers la gauche",
        "nl": "naar links", "es": "hacia la izquierda", "pt": "para a esquerda",
    },
    "right": {
        "en": "right", "af": "regs", "de": "nach rechts", "fr": "vers la droite",
        "nl": "naar rechts", "es": "hacia la derecha", "pt": "para a direita",
    },
    "at": {
        "en": "at {angle} anticlockwise from the right", "af": "teen {angle} antikloksgewys van regs af",
        "de": "unter {angle} gegen den Uhrzeigersinn von rechts",
        "fr": "à {angle} dans le sens antihoraire depuis la droite",
        "nl": "onder {angle} tegen de klok in vanaf rechts",
        "es": "a {angle} en sentido antihorario desde la derecha",
        "pt": "a {angle} no sentido anti-horário a partir da direita",
    },
}  # fmt: skip


def word(key: str, lang: str, **parts: str) -> str:
    """A word or sentence in a language; in English where the table has not that language.

    Args:
        key: its key.
        lang: a language tag, of which the first part counts.
        parts: what stands in the place of the names in braces.
    """
    row = _TABLE[key]
    text = row.get(lang.replace("_", "-").split("-")[0].lower(), row["en"])
    for name, part in parts.items():
        text = text.replace("{" + name + "}", part)
    return text
