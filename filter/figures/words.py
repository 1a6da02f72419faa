"""The words that figures say of themselves: in keys beside them, and in the description for those who do not see."""

from __future__ import annotations

from collections.abc import Mapping

from physcalc.exact import NumberStyle
from physcalc.figures.reading import Direction
from physcalc.language.headings import heading_words
from physcalc.language.words import direction_pairs, direction_words, in_language, punctuated

from .words_situation import SITUATION_WORDS

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
    "marking": {
        "en": "What earns the marks", "af": "Waarvoor die punte is", "de": "Wofür es die Punkte gibt",
        "fr": "Ce qui est noté", "nl": "Waarvoor de punten zijn", "es": "Qué se califica",
        "pt": "O que é avaliado",
    },
    "drawing": {
        "en": "the drawing", "af": "die tekening", "de": "die Zeichnung", "fr": "le dessin", "nl": "de tekening",
        "es": "el dibujo", "pt": "o desenho",
    },
    "drawing-rest": {
        "en": "the rest of the drawing", "af": "die res van die tekening", "de": "die übrige Zeichnung",
        "fr": "le reste du dessin", "nl": "de rest van de tekening", "es": "el resto del dibujo",
        "pt": "o resto do desenho",
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
    "graph": {
        "en": "Graph of {y} against {x}", "af": "Grafiek van {y} teenoor {x}", "de": "Graph von {y} über {x}",
        "fr": "Graphique de {y} en fonction de {x}", "nl": "Grafiek van {y} tegen {x}",
        "es": "Gráfica de {y} en función de {x}", "pt": "Gráfico de {y} em função de {x}",
    },
    "graph-grid": {
        "en": "Blank squared paper for a graph", "af": "Blanko grafiekpapier", "de": "Leeres Millimeterpapier",
        "fr": "Papier quadrillé vierge", "nl": "Leeg grafiekpapier", "es": "Papel cuadriculado en blanco",
        "pt": "Papel quadriculado em branco",
    },
    "graph-axes": {
        "en": "Squared paper with axes for a graph of {y} against {x}",
        "af": "Grafiekpapier met asse vir ’n grafiek van {y} teenoor {x}",
        "de": "Millimeterpapier mit Achsen für einen Graphen von {y} über {x}",
        "fr": "Papier quadrillé avec les axes d’un graphique de {y} en fonction de {x}",
        "nl": "Grafiekpapier met assen voor een grafiek van {y} tegen {x}",
        "es": "Papel cuadriculado con ejes para una gráfica de {y} en función de {x}",
        "pt": "Papel quadriculado com eixos para um gráfico de {y} em função de {x}",
    },
    "graph-points": {
        "en": "{count} points from {first} to {last}", "af": "{count} punte van {first} tot {last}",
        "de": "{count} Punkte von {first} bis {last}", "fr": "{count} points de {first} à {last}",
        "nl": "{count} punten van {first} tot {last}", "es": "{count} puntos de {first} a {last}",
        "pt": "{count} pontos de {first} a {last}",
    },
    "graph-one-point": {
        "en": "the point {first}", "af": "die punt {first}", "de": "der Punkt {first}", "fr": "le point {first}",
        "nl": "het punt {first}", "es": "el punto {first}", "pt": "o ponto {first}",
    },
    "graph-piece": {
        "en": "straight from {first} to {last}", "af": "reguit van {first} tot {last}",
        "de": "gerade von {first} bis {last}", "fr": "droite de {first} à {last}",
        "nl": "recht van {first} tot {last}", "es": "recta de {first} a {last}", "pt": "reta de {first} a {last}",
    },
    "graph-curve": {
        "en": "curved from {first} to {last}", "af": "gekrom van {first} tot {last}",
        "de": "gekrümmt von {first} bis {last}", "fr": "courbe de {first} à {last}",
        "nl": "gekromd van {first} tot {last}", "es": "curva de {first} a {last}", "pt": "curva de {first} a {last}",
    },
    "graph-fit": {
        "en": "line of best fit", "af": "lyn van beste passing", "de": "Ausgleichsgerade", "fr": "droite d’ajustement",
        "nl": "best passende lijn", "es": "recta de mejor ajuste", "pt": "reta de melhor ajuste",
    },
    "graph-weighted": {
        "en": "each point weighted by 1/u² of its uncertainty",
        "af": "elke punt geweeg met 1/u² van sy onsekerheid",
        "de": "jeder Punkt mit 1/u² seiner Unsicherheit gewichtet",
        "fr": "chaque point pondéré par 1/u² de son incertitude",
        "nl": "elk punt gewogen met 1/u² van zijn onzekerheid",
        "es": "cada punto ponderado con 1/u² de su incertidumbre",
        "pt": "cada ponto ponderado por 1/u² da sua incerteza",
    },
    "graph-both": {
        "en": "each point weighted by its uncertainties in x and y",
        "af": "elke punt geweeg met sy onsekerhede in x en y",
        "de": "jeder Punkt mit seinen Unsicherheiten in x und y gewichtet",
        "fr": "chaque point pondéré par ses incertitudes en x et en y",
        "nl": "elk punt gewogen met zijn onzekerheden in x en y",
        "es": "cada punto ponderado con sus incertidumbres en x e y",
        "pt": "cada ponto ponderado pelas suas incertezas em x e y",
    },
    "graph-gradient": {
        "en": "gradient", "af": "gradiënt", "de": "Steigung", "fr": "pente", "nl": "helling", "es": "pendiente",
        "pt": "declive",
    },
    "graph-intercept": {
        "en": "intercept", "af": "afsnit", "de": "Achsenabschnitt", "fr": "ordonnée à l’origine", "nl": "asafsnede",
        "es": "ordenada en el origen", "pt": "ordenada na origem",
    },
    "graph-x intercept": {
        "en": "intercept on the horizontal axis", "af": "afsnit op die horisontale as",
        "de": "Schnittpunkt mit der waagerechten Achse", "fr": "abscisse à l’origine",
        "nl": "snijpunt met de horizontale as", "es": "corte con el eje horizontal",
        "pt": "interseção com o eixo horizontal",
    },
    "graph-r squared": {
        "en": "coefficient of determination", "af": "bepaaldheidskoëffisiënt", "de": "Bestimmtheitsmaß",
        "fr": "coefficient de détermination", "nl": "determinatiecoëfficiënt",
        "es": "coeficiente de determinación", "pt": "coeficiente de determinação",
    },
    "graph-steepest": {
        "en": "greatest gradient", "af": "grootste gradiënt", "de": "größte Steigung", "fr": "pente maximale",
        "nl": "grootste helling", "es": "pendiente máxima", "pt": "declive máximo",
    },
    "graph-shallowest": {
        "en": "least gradient", "af": "kleinste gradiënt", "de": "kleinste Steigung", "fr": "pente minimale",
        "nl": "kleinste helling", "es": "pendiente mínima", "pt": "declive mínimo",
    },
    "graph-area": {
        "en": "area", "af": "oppervlakte", "de": "Fläche", "fr": "aire", "nl": "oppervlakte", "es": "área",
        "pt": "área",
    },
    "circuit": {
        "en": "Circuit diagram of a loop: {parts}", "af": "Stroombaandiagram van ’n lus: {parts}",
        "de": "Schaltplan einer Schleife: {parts}", "fr": "Schéma électrique d’une boucle : {parts}",
        "nl": "Schakelschema van een lus: {parts}", "es": "Esquema eléctrico de un lazo: {parts}",
        "pt": "Esquema elétrico de uma malha: {parts}",
    },
    "circuit-nodes": {
        "en": "Circuit diagram: {branches}", "af": "Stroombaandiagram: {branches}",
        "de": "Schaltplan: {branches}", "fr": "Schéma électrique : {branches}",
        "nl": "Schakelschema: {branches}", "es": "Esquema eléctrico: {branches}",
        "pt": "Esquema elétrico: {branches}",
    },
    "circuit-branch": {
        "en": "from {start} to {end} {parts}", "af": "van {start} na {end} {parts}",
        "de": "von {start} nach {end} {parts}", "fr": "de {start} à {end} {parts}",
        "nl": "van {start} naar {end} {parts}", "es": "de {start} a {end} {parts}",
        "pt": "de {start} a {end} {parts}",
    },
    "circuit-parallel": {
        "en": "{count} branches in parallel ({branches})", "af": "{count} takke in parallel ({branches})",
        "de": "{count} parallele Zweige ({branches})", "fr": "{count} branches en parallèle ({branches})",
        "nl": "{count} parallelle takken ({branches})", "es": "{count} ramas en paralelo ({branches})",
        "pt": "{count} ramos em paralelo ({branches})",
    },
    "circuit-across": {
        "en": "{part} with {meter} across it", "af": "{part} met {meter} daaroor",
        "de": "{part} mit {meter} parallel dazu", "fr": "{part} avec {meter} à ses bornes",
        "nl": "{part} met {meter} eroverheen", "es": "{part} con {meter} en sus bornes",
        "pt": "{part} com {meter} aos seus terminais",
    },
    "circuit-battery": {
        "en": "battery", "af": "battery", "de": "Batterie", "fr": "pile", "nl": "batterij", "es": "batería",
        "pt": "bateria",
    },
    "circuit-cell": {
        "en": "cell", "af": "sel", "de": "Zelle", "fr": "pile", "nl": "cel", "es": "pila", "pt": "pilha",
    },
    "circuit-resistor": {
        "en": "resistor", "af": "resistor", "de": "Widerstand", "fr": "résistance", "nl": "weerstand",
        "es": "resistencia", "pt": "resistor",
    },
    "circuit-variable resistor": {
        "en": "variable resistor", "af": "verstelbare resistor", "de": "veränderlicher Widerstand",
        "fr": "résistance variable", "nl": "regelbare weerstand", "es": "resistencia variable",
        "pt": "resistor variável",
    },
    "circuit-thermistor": {
        "en": "thermistor", "af": "termistor", "de": "Thermistor", "fr": "thermistance", "nl": "thermistor",
        "es": "termistor", "pt": "termistor",
    },
    "circuit-light-dependent resistor": {
        "en": "light-dependent resistor", "af": "ligafhanklike resistor", "de": "Fotowiderstand",
        "fr": "photorésistance", "nl": "lichtafhankelijke weerstand", "es": "fotorresistencia",
        "pt": "fotorresistor",
    },
    "circuit-lamp": {
        "en": "lamp", "af": "lamp", "de": "Lampe", "fr": "lampe", "nl": "lamp", "es": "lámpara",
        "pt": "lâmpada",
    },
    "circuit-motor": {
        "en": "motor", "af": "motor", "de": "Motor", "fr": "moteur", "nl": "motor", "es": "motor",
        "pt": "motor",
    },
    "circuit-switch open": {
        "en": "open switch", "af": "oop skakelaar", "de": "offener Schalter", "fr": "interrupteur ouvert",
        "nl": "open schakelaar", "es": "interruptor abierto", "pt": "interruptor aberto",
    },
    "circuit-switch closed": {
        "en": "closed switch", "af": "geslote skakelaar", "de": "geschlossener Schalter",
        "fr": "interrupteur fermé", "nl": "gesloten schakelaar", "es": "interruptor cerrado",
        "pt": "interruptor fechado",
    },
    "circuit-ammeter": {
        "en": "ammeter", "af": "ammeter", "de": "Strommesser", "fr": "ampèremètre", "nl": "ampèremeter",
        "es": "amperímetro", "pt": "amperímetro",
    },
    "circuit-voltmeter": {
        "en": "voltmeter", "af": "voltmeter", "de": "Spannungsmesser", "fr": "voltmètre", "nl": "voltmeter",
        "es": "voltímetro", "pt": "voltímetro",
    },
    "circuit-galvanometer": {
        "en": "galvanometer", "af": "galvanometer", "de": "Galvanometer", "fr": "galvanomètre",
        "nl": "galvanometer", "es": "galvanómetro", "pt": "galvanómetro",
    },
    "circuit-fuse": {
        "en": "fuse", "af": "sekering", "de": "Sicherung", "fr": "fusible", "nl": "zekering", "es": "fusible",
        "pt": "fusível",
    },
    "circuit-capacitor": {
        "en": "capacitor", "af": "kapasitor", "de": "Kondensator", "fr": "condensateur", "nl": "condensator",
        "es": "condensador", "pt": "condensador",
    },
    "circuit-diode": {
        "en": "diode", "af": "diode", "de": "Diode", "fr": "diode", "nl": "diode", "es": "diodo",
        "pt": "díodo",
    },
    "circuit-LED": {
        "en": "light-emitting diode", "af": "liguitstralende diode", "de": "Leuchtdiode",
        "fr": "diode électroluminescente", "nl": "lichtdiode", "es": "diodo emisor de luz",
        "pt": "díodo emissor de luz",
    },
    "circuit-wire": {
        "en": "wire", "af": "draad", "de": "Draht", "fr": "fil", "nl": "draad", "es": "cable", "pt": "fio",
    },
    "circuit-terminals": {
        "en": "two terminals", "af": "twee terminale", "de": "zwei Anschlüsse", "fr": "deux bornes",
        "nl": "twee aansluitpunten", "es": "dos terminales", "pt": "dois terminais",
    },
}  # fmt: skip


def word(key: str, lang: str, **parts: str) -> str:
    """A word or sentence in a language; in English where the table has not that language.

    Args:
        key: its key.
        lang: a language tag, of which the first part counts.
        parts: what stands in the place of the names in braces.
    """
    return punctuated(in_language(_TABLE.get(key) or SITUATION_WORDS[key], lang, **parts), lang)


def way(direction: Direction, style: NumberStyle, lang: str) -> str:
    """A direction of a figure in words: as the author typed it, or in the document's language where there are tables
    for it; empty where nothing says it."""
    if not direction_pairs(lang):
        return direction.words.removeprefix("at ")
    if direction.heading is not None:
        return heading_words(direction.heading, style)
    said = direction_words(direction.words, lang)
    return said if said != direction.words else ""
