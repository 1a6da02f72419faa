"""Directions in documents of other languages: typed in the document's words or in English, printed in its own.

The words are common usage of school books, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.cli import main

from physcalc.exact import NumberStyle
from physcalc.language.directions import opposite_of, printed_direction, read_axis
from physcalc.language.headings import heading_words, own_heading_at, read_heading
from physcalc.language.quantities import read_typed
from physcalc.language.words import direction_words
from physcalc.problems import Problem, Text

PAPER = """---
lang: %s
physcalc:
  axis: %s
---

# Slee {.question marks=6}

```{.given}
F_1: 40 N, %s
F_2: 55 N, %s
```

```{.calc}
marks: 3
formula: F_net = F_1 + F_2
find: F_net in N to 2 dp with direction
answer: 15 N, %s
```

```{.calc}
marks: 3
given:
  F_3: 3 N at east
  F_4: 4 N at north
formula: F_R = F_3 + F_4
find: F_R in N with direction
```
"""

#: The axis, right and left as typed, and what is printed of a line and of a plane.
CASES = {
    "en": ("right is positive", "right", "left", "to the left", "at 53.13° north of east"),
    "af": ("regs is positief", "na regs", "links", "links", "53,13° noord van oos"),
    "de": ("nach links ist negativ", "rechts", "links", "nach links", "53,13° von Osten nach Norden"),
    "fr": ("à droite est positive", "vers la droite", "à gauche", "vers la gauche", "à 53,13° au nord de l'est"),
    "nl": ("naar rechts is positief", "rechts", "links", "naar links", "53,13° van oost naar noord"),
    "es": (
        "a la derecha es positivo", "a la derecha", "a la izquierda", "hacia la izquierda",
        "a 53,13° al norte del este",
    ),
    "pt": ("à direita é positivo", "à direita", "à esquerda", "para a esquerda", "a 53,13° a norte do leste"),
}  # fmt: skip


def memo(folder: Path, text: str) -> str:
    (folder / "a.md").write_text(text, encoding="utf-8")
    assert main(["build", str(folder / "a.md"), "--edition", "memo", "-o", str(folder / "memo.md")]) == 0
    return (folder / "memo.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("lang", CASES)
def test_directions_are_typed_and_printed_in_the_documents_language(lang: str, tmp_path: Path) -> None:
    axis, right, left, printed, plane = CASES[lang]
    made = memo(tmp_path, PAPER % (lang, axis, right, left, left))
    assert f"\\ \\text{{{printed}}}" in made
    assert plane in made


@pytest.mark.parametrize("lang", [lang for lang in CASES if lang != "en"])
def test_english_is_understood_in_every_language(lang: str, tmp_path: Path) -> None:
    made = memo(tmp_path, PAPER % (lang, "right is positive", "right", "left", "left"))
    assert f"\\ \\text{{{CASES[lang][3]}}}" in made


def test_a_wrong_direction_is_mended_in_the_authors_language(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "a.md").write_text(
        PAPER % ("af", "regs is positief", "regs", "links", "regs"), encoding="utf-8"
    )
    assert main(["check", str(tmp_path / "a.md")]) == 1
    told = capsys.readouterr().out
    assert "direction-disagrees" in told
    assert "links" in told
    assert "to the left" not in told
    assert main(["fix", str(tmp_path / "a.md")]) == 0
    assert "answer: 15 N, links" in (tmp_path / "a.md").read_text(encoding="utf-8")


def test_an_unknown_direction_is_told_with_the_axis_as_it_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "a.md").write_text(
        PAPER % ("af", "regs is positief", "regs", "links", "skuins"), encoding="utf-8"
    )
    assert main(["check", str(tmp_path / "a.md")]) == 1
    assert "the axis has regs (positive) and links (negative)" in capsys.readouterr().out


@pytest.mark.parametrize("lang", [lang for lang in CASES if lang != "en"])
@pytest.mark.parametrize("english", ["to the right", "upwards", "north", "east", "to the left", "downwards"])
def test_what_is_printed_is_read_as_the_same(lang: str, english: str) -> None:
    own = direction_words(english, lang)
    assert own != english
    assert printed_direction(own, lang) == english
    axis = read_axis(Text(f"{own} is positive"), lang)
    assert (axis.positive, axis.negative) == (english, opposite_of(english))
    assert axis.sign_of(own) == 1


def test_words_of_another_language_are_not_guessed() -> None:
    with pytest.raises(Problem):
        read_axis(Text("regs is positive"), "en")
    assert printed_direction("links", "en") == "links"


@pytest.mark.parametrize(
    ("typed", "lang", "printed"),
    [
        ("bearing 040°", "de", "mit dem Kurs 040°"),
        ("30° above right", "af", "teen 30° bo die horisontaal, regs"),
        ("30° below left", "fr", "à 30° au-dessous de l'horizontale, vers la gauche"),
        ("20° east of north", "de", "im Winkel von 20° von Norden nach Osten"),
        ("20° east of north", "fr", "à 20° à l'est du nord"),
        ("A to P", "nl", "van A naar P"),
        ("30°", "es", "a 30°"),
        ("20° north of east", "AF_za", "teen 20° noord van oos"),
        ("30°", "xx", "at 30°"),
        ("20° east of north", "xx", "at 20° east of north"),
    ],
)  # fmt: skip
def test_directions_in_a_plane(typed: str, lang: str, printed: str) -> None:
    style = NumberStyle(decimal=",", lang=lang)
    assert heading_words(read_heading(Text(typed), ","), style) == printed


#: A direction in a plane as typed in each language, the same in English, and what is printed.
PLANE = {
    "af": ("12 N teen 30° noord van oos", "12 N at 30° bo regs", "teen 30° bo die horisontaal, regs", "noordoos"),
    "de": (
        "12 N im Winkel von 30° von Osten nach Norden", "12 N at 30° über der Waagerechten, nach rechts",
        "im Winkel von 30° über der Waagerechten, nach rechts", "Nordosten",
    ),
    "fr": (
        "12 N à 30° au nord de l’est", "12 N at 30° au-dessus de l'horizontale, à droite",
        "à 30° au-dessus de l'horizontale, vers la droite", "nord-est",
    ),
    "nl": (
        "12 N onder een hoek van 30° van oost naar noord", "12 N onder 30° boven de horizontaal, rechts",
        "onder een hoek van 30° boven de horizontaal, naar rechts", "noordoost",
    ),
    "es": (
        "12 N a 30° al norte del este", "12 N a 30° por encima de la horizontal, a la derecha",
        "a 30° por encima de la horizontal, hacia la derecha", "noreste",
    ),
    "pt": (
        "12 N a 30° a norte do leste", "12 N a 30° acima da horizontal, à direita",
        "a 30° acima da horizontal, para a direita", "nordeste",
    ),
}  # fmt: skip


@pytest.mark.parametrize("lang", PLANE)
def test_directions_in_a_plane_are_typed_in_the_documents_language(lang: str) -> None:
    compass, screen, printed, corner = PLANE[lang]
    style = NumberStyle(decimal=",", lang=lang)
    found = read_typed(Text(compass), ",", lang)
    assert found is not None
    assert found.heading is not None
    plain = read_heading(Text("30° north of east"), ",")
    assert (found.heading.kind, found.heading.base, found.heading.turn) == (
        plain.kind,
        plain.base,
        plain.turn,
    )
    found = read_typed(Text(screen), ",", lang)
    assert found is not None
    assert found.heading is not None
    assert heading_words(found.heading, style) == printed
    assert (halfway := read_heading(Text(corner), ",", lang)).turned() == read_heading(
        Text("45°"), ","
    ).turned()
    assert (halfway.base, halfway.turn) == (0, 1)


@pytest.mark.parametrize("lang", PLANE)
@pytest.mark.parametrize(
    "english",
    [
        "20° north of east",
        "20° west of south",
        "30° above right",
        "30° below left",
        "bearing 040°",
        "east",
        "up",
        "A to P",
    ],
)
def test_what_is_printed_in_a_plane_is_read_as_the_same(lang: str, english: str) -> None:
    heading = read_heading(Text(english), ",")
    own = heading_words(heading, NumberStyle(decimal=",", lang=lang))
    again = read_heading(Text(own), ",", lang)
    assert (again.direction() - heading.direction()).sign() == 0
    assert again.between == heading.between
    assert again.span.length == len(own)


@pytest.mark.parametrize("typed", ["12 N a 30", "12 N teen 30° noord", "m a 3", "12 N"])
def test_what_is_no_direction_is_not_taken_for_one(typed: str) -> None:
    assert own_heading_at(typed, "es") is None
    assert own_heading_at(typed, "af") is None


DRAWN = """---
lang: %s
---

# 1 {.question}

```{.draw}
forces:
  F_g: 49.0 N, down
  N: 42.4 N, perpendicular to the slope
  f: 24.5 N, %s
  T: 10 N at 30° above right
slope: 30°
```
"""


@pytest.mark.parametrize(
    ("lang", "typed", "said"),
    [
        ("af", "teen die helling op", ("loodreg op die helling", "teen die helling op", "teen 30° bo die")),
        ("de", "up the incline", ("senkrecht zur schiefen Ebene", "die schiefe Ebene hinauf", "über der Waagerechten")),
        ("fr", "up the slope", ("perpendiculairement au plan incliné", "vers le haut du plan incliné", "à 30° au-")),
        ("en", "up the slope", ("perpendicular to the slope", "up the slope", "30° above right")),
        ("zu", "up the slope", ("perpendicular to the slope", "up the slope", "30° above right")),
    ],
)  # fmt: skip
def test_a_figure_is_described_in_the_documents_language(
    lang: str, typed: str, said: tuple[str, ...], tmp_path: Path
) -> None:
    (tmp_path / "a.md").write_text(DRAWN % (lang, typed), encoding="utf-8")
    assert main(["build", str(tmp_path / "a.md"), "--edition", "guide", "-o", str(tmp_path / "a.html")]) == 0
    made = (tmp_path / "a.html").read_text(encoding="utf-8")
    for words in said:
        assert words in made
    assert ("slope" in made.split("aria-label=", 1)[1]) == (lang in ("en", "zu"))
