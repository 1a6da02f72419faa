"""The words that a page itself says, by language; an author may put others in their place."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

#: What each key is for: the one list of everything a page says that no author typed.
KEYS: Mapping[str, str] = MappingProxyType(
    {
        "paper": "name of the edition that is written on",
        "memo": "name of the edition that is marked from",
        "guide": "name of the edition that is learnt from",
        "page": "running foot, before the number of the page",
        "of": "running foot, before the number of pages",
        "total": "before a sum of marks",
        "mark": "the unit of marks, one",
        "marks": "the unit of marks, none or several",
        "time": "before the time that is allowed",
        "instructions": "above what candidates are told",
        "question": "before the number of a question",
        "answer": "above a written answer",
        "given": "above the data of a calculation",
        "working": "above the lines of a calculation",
        "or": "between two methods",
        "definition": "above a definition",
        "slips": "above the wrong ways worth knowing, in the guide",
        "slip": "before the wrong ways worth knowing, in the memo",
        "gives": "between a wrong way and what it leads to",
        "why": "before the reason of a step",
        "accept": "before what markers may accept",
        "to": "between the two ends of a range",
        "carried": "before the parts whose wrong answer is carried through",
        "sheet": "above the data and formula sheet",
        "constants": "above the constants of the sheet",
        "formulas": "above the formulas of the sheet",
        "problem": "above a problem in a draft",
        "draft": "says that a document still has problems",
        "topic": "above the topics of the grid",
        "level": "before the number of a level, in the grid",
        "target": "before the share of the marks that is aimed at, in the grid",
        "unsaid": "for marks whose topic or level is not said, in the grid",
        "colon": "between a label and what it says",
    }
)

_ORDER = tuple(KEYS)

# One line for each row of KEYS, in that order.
_TABLE: Mapping[str, tuple[str, ...]] = {
    "en": (
        "Question paper", "Marking memo", "Study guide", "page", "of", "Total", "mark", "marks", "Time",
        "Instructions", "Question", "Answer", "Given", "Working", "or", "Definition",
        "Slips to avoid", "Slips", "gives", "Why",
        "Accept", "to", "Carry an error through from", "Data and formulas", "Constants", "Formulas", "Problem", "Draft",
        "Topic", "Level", "Target", "not said", ":",
    ),
    "af": (
        "Vraestel", "Nasienmemorandum", "Studiegids", "bladsy", "van", "Totaal", "punt", "punte", "Tyd",
        "Instruksies", "Vraag", "Antwoord", "Gegee", "Berekening", "of", "Definisie",
        "Foute om te vermy", "Foute", "gee",
        "Waarom", "Aanvaar", "tot", "Dra ’n fout oor vanaf", "Data en formules", "Konstantes", "Formules", "Probleem",
        "Konsep",
        "Onderwerp", "Vlak", "Teiken", "nie genoem nie", ":",
    ),
    "de": (
        "Aufgabenblatt", "Bewertungsbogen", "Lernheft", "Seite", "von", "Summe", "Punkt", "Punkte", "Zeit",
        "Hinweise", "Aufgabe", "Antwort", "Gegeben", "Rechnung", "oder", "Definition",
        "Häufige Fehler", "Fehler", "ergibt",
        "Warum", "Zulässig", "bis", "Folgefehler aus", "Daten und Formeln", "Konstanten", "Formeln", "Problem",
        "Entwurf",
        "Thema", "Stufe", "Ziel", "ohne Angabe", ":",
    ),
    "fr": (
        "Sujet", "Corrigé et barème", "Guide d’étude", "page", "sur", "Total", "point", "points", "Durée",
        "Consignes", "Question", "Réponse", "Données", "Calcul", "ou", "Définition",
        "Erreurs à éviter", "Erreurs", "donne",
        "Pourquoi", "Accepter", "à", "Reporter l’erreur depuis", "Données et formules", "Constantes", "Formules",
        "Problème", "Brouillon",
        "Thème", "Niveau", "Cible", "non précisé", "\u00a0:",
    ),
    "nl": (
        "Opgaven", "Correctiemodel", "Studiegids", "pagina", "van", "Totaal", "punt", "punten", "Tijd",
        "Aanwijzingen", "Vraag", "Antwoord", "Gegeven", "Berekening", "of", "Definitie",
        "Fouten om te vermijden", "Fouten", "geeft",
        "Waarom", "Goed rekenen", "tot", "Doorrekenen vanaf", "Gegevens en formules",
        "Constanten", "Formules", "Probleem", "Concept",
        "Onderwerp", "Niveau", "Doel", "niet vermeld", ":",
    ),
    "es": (
        "Examen", "Guía de corrección", "Guía de estudio", "página", "de", "Total", "punto", "puntos",
        "Tiempo", "Instrucciones", "Pregunta", "Respuesta", "Datos", "Cálculo", "o bien", "Definición",
        "Errores que evitar", "Errores", "da",
        "Por qué", "Aceptar", "a", "Arrastrar el error desde", "Datos y fórmulas", "Constantes",
        "Fórmulas", "Problema", "Borrador",
        "Tema", "Nivel", "Objetivo", "sin indicar", ":",
    ),
    "pt": (
        "Prova", "Guia de correção", "Guia de estudo", "página", "de", "Total", "ponto", "pontos", "Tempo",
        "Instruções", "Questão", "Resposta", "Dados", "Cálculo", "ou", "Definição", "Erros a evitar", "Erros", "dá",
        "Porquê", "Aceitar", "a", "Propagar o erro de", "Dados e fórmulas", "Constantes", "Fórmulas", "Problema",
        "Rascunho",
        "Tema", "Nível", "Meta", "não indicado", ":",
    ),
}  # fmt: skip

LANGUAGES: tuple[str, ...] = tuple(_TABLE)

Words = Mapping[str, str]


def words_for(lang: str = "en", labels: Mapping[str, str] | None = None) -> Words:
    """The words for a language tag, with the author's own in the place of the table's.

    Args:
        lang: a language tag ("en-ZA", "de"); only its first part is looked at, and a language that the
            table has not is answered in English.
        labels: own words by key of `KEYS`; keys that are unknown are left out here (settings refuse them).

    Returns:
        a read-only mapping that has every key of `KEYS`.
    """
    first = lang.replace("_", "-").split("-")[0].lower()
    words = dict(zip(_ORDER, _TABLE.get(first, _TABLE["en"]), strict=True))
    for key, word in (labels or {}).items():
        if key in words:
            words[key] = word
    return MappingProxyType(words)


ENGLISH: Words = words_for("en")
