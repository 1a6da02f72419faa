"""Words that a typed answer may say: signs, attraction and repulsion, directions, what a result does.

One table, by language. English words are understood in every document. The words are common usage of school
books; no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

#: Pairs of (words for −1, words for +1); a word and the one at the same place of the other list are counterparts.
Pairs = tuple[tuple[str, ...], tuple[str, ...]]

_SIGNS: dict[str, Pairs] = {
    "en": (("negative", "−", "-", "minus", "-ve"), ("positive", "+", "+", "plus", "+ve")),
    "af": (("negatief", "negatiewe"), ("positief", "positiewe")),
    "de": (("negativ", "negative", "negativen"), ("positiv", "positive", "positiven")),
    "fr": (("négatif", "négative"), ("positif", "positive")),
    "nl": (("negatief", "negatieve"), ("positief", "positieve")),
    "es": (("negativo", "negativa"), ("positivo", "positiva")),
    "pt": (("negativo", "negativa"), ("positivo", "positiva")),
}  # fmt: skip
_NO_SIGN = {
    "en": ("zero", "neutral"), "af": ("nul", "neutraal"), "de": ("null", "neutral"), "fr": ("nul", "nulle", "neutre"),
    "nl": ("nul", "neutraal"), "es": ("cero", "nulo", "nula", "neutro", "neutra"),
    "pt": ("zero", "nulo", "nula", "neutro", "neutra"),
}  # fmt: skip

# −1 draws two bodies together (opposite charges), +1 drives them apart.
_FORCES: dict[str, Pairs] = {
    "en": (
        ("attraction", "attract", "attracts", "attractive", "attract each other", "attracted"),
        ("repulsion", "repel", "repels", "repulsive", "repel each other", "repelled"),
    ),
    "af": (
        ("aantrekking", "aantrekkend", "trek mekaar aan", "aantrekkingskrag", "aantrek"),
        ("afstoting", "afstotend", "stoot mekaar af", "afstotingskrag", "afstoot"),
    ),
    "de": (
        ("Anziehung", "anziehend", "ziehen sich an", "ziehen einander an"),
        ("Abstoßung", "abstoßend", "stoßen sich ab", "stoßen einander ab"),
    ),
    "fr": (("attraction", "attractive", "s'attirent"), ("répulsion", "répulsive", "se repoussent")),
    "nl": (
        ("aantrekking", "aantrekkend", "trekken elkaar aan", "aantrekken"),
        ("afstoting", "afstotend", "stoten elkaar af", "afstoten"),
    ),
    "es": (("atracción", "atractiva", "se atraen"), ("repulsión", "repulsiva", "se repelen")),
    "pt": (
        ("atração", "atrativa", "atraem-se", "se atraem"), ("repulsão", "repulsiva", "repelem-se", "se repelem"),
    ),
}  # fmt: skip

# Each row: the English words as they are printed (language/directions.py), and those of other languages.
_DIRECTIONS: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "af": (
        ("to the right", ("regs", "na regs")),
        ("to the left", ("links", "na links")),
        ("upwards", ("opwaarts", "boontoe", "na bo", "op", "vertikaal opwaarts", "vertikaal op")),
        ("downwards", ("afwaarts", "ondertoe", "na onder", "af", "vertikaal afwaarts", "vertikaal af")),
        ("north", ("noord", "noordwaarts", "na die noorde")),
        ("south", ("suid", "suidwaarts", "na die suide")),
        ("east", ("oos", "ooswaarts", "na die ooste")),
        ("west", ("wes", "weswaarts", "na die weste")),
        ("forwards", ("vorentoe", "vorwaarts")),
        ("backwards", ("agtertoe", "agterwaarts")),
        ("anticlockwise", ("antikloksgewys",)),
        ("clockwise", ("kloksgewys",)),
        ("into the page", ("in die bladsy in",)),
        ("out of the page", ("uit die bladsy uit",)),
        ("inwards", ("inwaarts",)),
        ("outwards", ("uitwaarts",)),
        ("up the slope", ("teen die helling op", "op teen die helling")),
        ("down the slope", ("teen die helling af", "af teen die helling")),
    ),
    "de": (
        ("to the right", ("nach rechts", "rechts")),
        ("to the left", ("nach links", "links")),
        ("upwards", ("nach oben", "aufwärts", "oben", "senkrecht nach oben")),
        ("downwards", ("nach unten", "abwärts", "unten", "senkrecht nach unten")),
        ("north", ("nach Norden", "nordwärts", "Norden")),
        ("south", ("nach Süden", "südwärts", "Süden")),
        ("east", ("nach Osten", "ostwärts", "Osten")),
        ("west", ("nach Westen", "westwärts", "Westen")),
        ("forwards", ("vorwärts", "nach vorn")),
        ("backwards", ("rückwärts", "nach hinten")),
        ("anticlockwise", ("gegen den Uhrzeigersinn",)),
        ("clockwise", ("im Uhrzeigersinn",)),
        ("into the page", ("in die Blattebene hinein",)),
        ("out of the page", ("aus der Blattebene heraus",)),
        ("inwards", ("nach innen",)),
        ("outwards", ("nach außen",)),
        ("up the slope", ("die schiefe Ebene hinauf", "hangaufwärts")),
        ("down the slope", ("die schiefe Ebene hinab", "hangabwärts")),
    ),
    "fr": (
        ("to the right", ("vers la droite", "à droite", "la droite", "droite")),
        ("to the left", ("vers la gauche", "à gauche", "la gauche", "gauche")),
        ("upwards", ("vers le haut", "le haut", "en haut", "haut", "verticalement vers le haut")),
        ("downwards", ("vers le bas", "le bas", "en bas", "bas", "verticalement vers le bas")),
        ("north", ("vers le nord", "au nord", "le nord", "nord")),
        ("south", ("vers le sud", "au sud", "le sud", "sud")),
        ("east", ("vers l'est", "à l'est", "l'est", "est")),
        ("west", ("vers l'ouest", "à l'ouest", "l'ouest", "ouest")),
        ("forwards", ("vers l'avant",)),
        ("backwards", ("vers l'arrière",)),
        ("anticlockwise", ("dans le sens antihoraire",)),
        ("clockwise", ("dans le sens horaire",)),
        ("into the page", ("entrant dans la page",)),
        ("out of the page", ("sortant de la page",)),
        ("inwards", ("vers l'intérieur",)),
        ("outwards", ("vers l'extérieur",)),
        ("up the slope", ("vers le haut du plan incliné", "vers le haut de la pente")),
        ("down the slope", ("vers le bas du plan incliné", "vers le bas de la pente")),
    ),
    "nl": (
        ("to the right", ("naar rechts", "rechts")),
        ("to the left", ("naar links", "links")),
        ("upwards", ("omhoog", "naar boven", "boven")),
        ("downwards", ("omlaag", "naar beneden", "beneden")),
        ("north", ("naar het noorden", "noordwaarts", "noord", "het noorden")),
        ("south", ("naar het zuiden", "zuidwaarts", "zuid", "het zuiden")),
        ("east", ("naar het oosten", "oostwaarts", "oost", "het oosten")),
        ("west", ("naar het westen", "westwaarts", "west", "het westen")),
        ("forwards", ("vooruit", "naar voren")),
        ("backwards", ("achteruit", "naar achteren")),
        ("anticlockwise", ("tegen de klok in",)),
        ("clockwise", ("met de klok mee",)),
        ("into the page", ("het papier in",)),
        ("out of the page", ("het papier uit",)),
        ("inwards", ("naar binnen",)),
        ("outwards", ("naar buiten",)),
        ("up the slope", ("langs de helling omhoog",)),
        ("down the slope", ("langs de helling omlaag",)),
    ),
    "es": (
        ("to the right", ("hacia la derecha", "a la derecha", "la derecha", "derecha")),
        ("to the left", ("hacia la izquierda", "a la izquierda", "la izquierda", "izquierda")),
        ("upwards", ("hacia arriba", "arriba")),
        ("downwards", ("hacia abajo", "abajo")),
        ("north", ("hacia el norte", "al norte", "el norte", "norte")),
        ("south", ("hacia el sur", "al sur", "el sur", "sur")),
        ("east", ("hacia el este", "al este", "el este", "este")),
        ("west", ("hacia el oeste", "al oeste", "el oeste", "oeste")),
        ("forwards", ("hacia delante", "hacia adelante")),
        ("backwards", ("hacia atrás",)),
        ("anticlockwise", ("en sentido antihorario",)),
        ("clockwise", ("en sentido horario",)),
        ("into the page", ("entrando en la página",)),
        ("out of the page", ("saliendo de la página",)),
        ("inwards", ("hacia dentro",)),
        ("outwards", ("hacia fuera",)),
        ("up the slope", ("hacia arriba por el plano inclinado",)),
        ("down the slope", ("hacia abajo por el plano inclinado",)),
    ),
    "pt": (
        ("to the right", ("para a direita", "à direita", "a direita", "direita")),
        ("to the left", ("para a esquerda", "à esquerda", "a esquerda", "esquerda")),
        ("upwards", ("para cima", "cima")),
        ("downwards", ("para baixo", "baixo")),
        ("north", ("para o norte", "para norte", "o norte", "norte")),
        ("south", ("para o sul", "para sul", "o sul", "sul")),
        ("east", ("para o leste", "para leste", "para este", "o leste", "leste", "este")),
        ("west", ("para o oeste", "para oeste", "o oeste", "oeste")),
        ("forwards", ("para a frente",)),
        ("backwards", ("para trás",)),
        ("anticlockwise", ("no sentido anti-horário",)),
        ("clockwise", ("no sentido horário",)),
        ("into the page", ("para dentro da página",)),
        ("out of the page", ("para fora da página",)),
        ("inwards", ("para dentro",)),
        ("outwards", ("para fora",)),
        ("up the slope", ("para cima ao longo do plano inclinado",)),
        ("down the slope", ("para baixo ao longo do plano inclinado",)),
    ),
}  # fmt: skip
_ACROSS = {
    "af": "loodreg op die helling", "de": "senkrecht zur schiefen Ebene", "fr": "perpendiculairement au plan incliné",
    "nl": "loodrecht op de helling", "es": "perpendicular al plano inclinado",
    "pt": "perpendicularmente ao plano inclinado",
}  # fmt: skip
#: How English says it, and what it calls a slope, which has one name in the tables of the others.
_ACROSS_ENGLISH = re.compile(
    r"(?:perpendicular|normal|at right angles) to the (?:slope|incline|ramp|plane|surface)", re.IGNORECASE
)
_SLOPE = re.compile(r"(?<=^up the )(?:incline|ramp|plane|hill)$|(?<=^down the )(?:incline|ramp|plane|hill)$")
_AT_REST = {
    "en": ("at rest", "no direction", "none", "stationary"), "af": ("in rus", "geen"), "de": ("in Ruhe", "keine"),
    "fr": ("au repos", "aucune"), "nl": ("in rust", "geen"), "es": ("en reposo", "ninguna"),
    "pt": ("em repouso", "nenhuma"),
}  # fmt: skip

# Each row: the English words that `language/changes.py` knows, and those of other languages.
_CHANGES: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "af": (
        ("doubles", ("verdubbel",)), ("halves", ("halveer",)), ("trebles", ("verdriedubbel",)),
        ("quadruples", ("verviervoudig",)), ("increases", ("neem toe", "vermeerder")),
        ("decreases", ("neem af", "verminder")), ("stays the same", ("bly dieselfde", "verander nie")),
    ),
    "de": (
        ("doubles", ("verdoppelt sich",)), ("halves", ("halbiert sich",)), ("trebles", ("verdreifacht sich",)),
        ("quadruples", ("vervierfacht sich",)), ("increases", ("nimmt zu", "wird größer")),
        ("decreases", ("nimmt ab", "wird kleiner")), ("stays the same", ("bleibt gleich", "ändert sich nicht")),
    ),
    "fr": (
        ("doubles", ("double", "est doublé", "est doublée")),
        ("halves", ("est divisé par deux", "est divisée par deux", "diminue de moitié")),
        ("trebles", ("triple",)), ("quadruples", ("quadruple",)), ("increases", ("augmente",)),
        ("decreases", ("diminue",)), ("stays the same", ("reste le même", "reste la même", "ne change pas")),
    ),
    "nl": (
        ("doubles", ("verdubbelt",)), ("halves", ("halveert",)), ("trebles", ("verdrievoudigt",)),
        ("quadruples", ("verviervoudigt",)), ("increases", ("neemt toe",)), ("decreases", ("neemt af",)),
        ("stays the same", ("blijft gelijk", "verandert niet")),
    ),
    "es": (
        ("doubles", ("se duplica",)), ("halves", ("se reduce a la mitad",)), ("trebles", ("se triplica",)),
        ("quadruples", ("se cuadruplica",)), ("increases", ("aumenta",)), ("decreases", ("disminuye",)),
        ("stays the same", ("no cambia", "permanece igual")),
    ),
    "pt": (
        ("doubles", ("duplica", "dobra")), ("halves", ("reduz-se à metade", "cai para metade")),
        ("trebles", ("triplica",)), ("quadruples", ("quadruplica",)), ("increases", ("aumenta",)),
        ("decreases", ("diminui",)), ("stays the same", ("não muda", "permanece igual")),
    ),
}  # fmt: skip


def sign_of(words: str, lang: str) -> int | None:
    """−1, 0 or 1 for a word that says a sign; None for another word."""
    if _plain(words) in {_plain(word) for tag in _tags(lang) for word in _NO_SIGN.get(tag, ())}:
        return 0
    return _side(words, _SIGNS, lang)


def sign_words(sign: int, lang: str, like: str = "") -> str:
    """The word for a sign, the counterpart of what the author wrote where there is one."""
    if sign == 0:
        return _NO_SIGN.get(_tags(lang)[0], _NO_SIGN["en"])[0]
    return _counterpart(sign, _SIGNS, lang, like)


def force_of(words: str, lang: str) -> int | None:
    """−1 for a word that says attraction, 1 for repulsion; None for another word."""
    return _side(words, _FORCES, lang)


def force_words(sign: int, lang: str, like: str = "") -> str:
    """The word for what a force does, the counterpart of what the author wrote where there is one."""
    return _counterpart(sign, _FORCES, lang, like)


def says_at_rest(words: str, lang: str) -> bool:
    """Whether words say that there is no direction."""
    return _plain(words) in {_plain(word) for tag in _tags(lang) for word in _AT_REST.get(tag, ())}


def at_rest(lang: str) -> str:
    """The words for a velocity of zero."""
    return _AT_REST.get(_tags(lang)[0], _AT_REST["en"])[0]


def english_direction(words: str, lang: str) -> str:
    """A direction in English; the words themselves where the table has no others for them."""
    if _plain(words) == _plain(_ACROSS.get(_tags(lang)[0], "")):
        return "perpendicular to the slope"
    return _english(words, _DIRECTIONS, lang)


def direction_words(english: str, lang: str) -> str:
    """A direction in the document's language; the English words where the table has no others."""
    plain = _SLOPE.sub("slope", english)
    for known, others in _DIRECTIONS.get(_tags(lang)[0], ()):
        if known == plain:
            return others[0]
    if _ACROSS_ENGLISH.fullmatch(english):
        return _ACROSS.get(_tags(lang)[0], english)
    return english


def in_language(row: Mapping[str, str], lang: str, **parts: str) -> str:
    """The word or sentence of a row of a table by language; in English where it has not that language.

    Args:
        row: the word in each language, by the first part of its tag.
        lang: the document's language tag.
        parts: what stands in the place of the names in braces.
    """
    text = row.get(_tags(lang)[0], row["en"])
    for name, part in parts.items():
        text = text.replace("{" + name + "}", part)
    return text


def punctuated(text: str, lang: str) -> str:
    """A sentence of the program with the blanks that a language sets before its colons and semicolons.

    French sets a no-break space before a colon and a narrow one before a semicolon, in Canada none before the latter.
    Common practice, as the typographic rules of its printers have it; no source.
    """
    language, *rest = lang.lower().replace("_", "-").split("-")
    if language != "fr":
        return text
    text = re.sub(r"[ \u00a0\u202f]?:(?=\s|$)", "\u00a0:", text)
    return re.sub(r"[ \u00a0\u202f]?;(?=\s|$)", ";" if "ca" in rest else "\u202f;", text)


def english_change(words: str, lang: str) -> str:
    """What a result does, in English; the words themselves where the table has no others for them."""
    return _english(words, _CHANGES, lang)


def language_of(lang: str) -> str:
    """The first part of a language tag, in small letters: "af" for "af-ZA"."""
    return _tags(lang)[0]


def direction_pairs(lang: str) -> tuple[tuple[str, str], ...]:
    """Every word of a direction in the document's own language, with the English one; none in English."""
    rows = _DIRECTIONS.get(_tags(lang)[0], ())
    return tuple((other, known) for known, others in rows for other in others)


def _tags(lang: str) -> tuple[str, ...]:
    """The document's language, and English."""
    first = lang.replace("_", "-").split("-")[0].lower()
    return (first, "en") if first != "en" else ("en",)


def _plain(words: str) -> str:
    return " ".join(words.replace("’", "'").casefold().split()).rstrip(".")


def _places(pairs: dict[str, Pairs], lang: str) -> Iterator[tuple[str, str]]:
    """Every word for −1 with its counterpart for +1."""
    for tag in _tags(lang):
        if tag in pairs:
            yield from zip(*pairs[tag], strict=True)


def _side(words: str, pairs: dict[str, Pairs], lang: str) -> int | None:
    said = _plain(words)
    for minus, plus in _places(pairs, lang):
        if said == _plain(minus):
            return -1
        if said == _plain(plus):
            return 1
    return None


def _counterpart(sign: int, pairs: dict[str, Pairs], lang: str, like: str) -> str:
    said = _plain(like)
    first = ""
    for both in _places(pairs, lang):
        wanted = both[0] if sign < 0 else both[1]
        first = first or wanted
        if said in (_plain(both[0]), _plain(both[1])):
            return wanted[:1].upper() + wanted[1:] if like[:1].isupper() else wanted
    return first


def _english(words: str, table: dict[str, tuple[tuple[str, tuple[str, ...]], ...]], lang: str) -> str:
    said = _plain(words)
    for known, others in table.get(_tags(lang)[0], ()):
        if any(said == _plain(other) for other in others):
            return known
    return words
