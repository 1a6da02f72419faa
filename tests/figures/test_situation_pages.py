"""Situations that cannot be drawn, and pages with those that can."""

from __future__ import annotations

import html
import json
import math
import re
import subprocess
from contextlib import suppress
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.figures.picture import WIDEST, Circle
from physcalc_filter.figures.words_situation import SITUATION_WORDS
from physcalc_filter.sources import Source

from physcalc.exact import Real
from physcalc.figures import situation_scenes as s
from physcalc.figures.drawn import Drawn

from ..programs import program
from .situation_cases import DATA, circle, clear, drawing, figure, picture, scene, situation, slugs, texts


@pytest.mark.parametrize(
    ("typed", "expected", "place"),
    [
        (["chrage q_A"], "situation-thing-unknown", (1, 1, 10)),
        (["charge q_A", "pendulum m"], "situation-things-apart", (2, 1, 10)),
        (["charge q_A", "charge B, 0.3 s right of q_A"], "situation-dimension", (2, 11, 5)),
        (["charge q_A", "charge B, 0.3 m right of C"], "figure-name-unknown", (2, 26, 1)),
        (["charge q_A", "charge B, 0.3 m sideways of q_A"], "figure-phrase-unreadable", (2, 11, 21)),
        (["charge A at 1 m", "charge B at 100 cm"], "situation-place-taken", (2, 1, 18)),
        (
            ["mass A", "mass B, 3 mm right of A", "mass C, 4 m right of A"],
            "situation-distance-enormous",
            (3, 9, 14),
        ),
        (
            ["mass A", "mass B, 3 m right of A", "distance 4 m between A and B"],
            "situation-distance-differs",
            (3, 1, 28),
        ),
        (
            ["charge A, 0.1 m right of B", "charge B, 0.1 m left of A"],
            "figure-phrase-unreadable",
            (1, 11, 16),
        ),
        (["charge A = 5 kg m"], "situation-dimension", (1, 12, 6)),
        (["charge A at x"], "name-without-value", (1, 13, 1)),
        (["force F on A, right"], "situation-empty", (1, 1, 19)),
        (["block A on a surface", "force F on B, right"], "figure-name-unknown", (2, 12, 1)),
        (["block A on a surface", "force F on A"], "force-undirected", (2, 1, 12)),
        (["block A on a surface", "block A on the surface"], "figure-phrase-unreadable", (2, 1, 22)),
        (["incline 95°"], "situation-value-outside", (1, 9, 3)),
        (["block A hanging over a pulley"], "situation-part-missing", (1, 1, 29)),
        (["pendulum m, lenght L"], "figure-phrase-unreadable", (1, 13, 8)),
        (["before: A at 3 m/s"], "", None),
        (["before: A at v"], "situation-part-missing", (1, 9, 6)),
        (["projectile, speed 3 m/s"], "situation-part-missing", (1, 1, 23)),
        (["converging lens"], "situation-part-missing", (1, 1, 15)),
        (["converging lens, focal length x", "object, 3 cm from the lens"], "name-without-value", (1, 31, 1)),
        (
            ["converging lens, focal length 0 m", "object, 3 cm from the lens"],
            "situation-value-outside",
            (1, 18, 16),
        ),
        (["incident ray at 30°"], "situation-part-missing", (1, 1, 19)),
        (["interface: air above glass", "incident ray at 30°"], "situation-part-missing", (2, 1, 19)),
        (
            ["interface: air (0.5) above glass (1.5)", "incident ray at 30°"],
            "situation-value-outside",
            (1, 17, 3),
        ),
        (["transverse wave, 9999 wavelengths"], "situation-value-outside", (1, 18, 16)),
        (["source moving right at 9 m/s, wave speed 1 m/s"], "situation-value-outside", (1, 1, 28)),
        ([f"mass A_{n}" for n in range(13)], "situation-things-many", (13, 1, 9)),
        (["mass A" + " " * 300 + "B"], "figure-phrase-unreadable", (1, 1, 6)),
        ([f"mass A_{n}" for n in range(41)], "situation-things-many", (41, 1, 9)),
        ([], "situation-empty", (1, 1, 1)),
    ],
)
def test_what_cannot_be_drawn_is_said_at_its_place(
    typed: list[str], expected: str, place: tuple[int, int, int] | None
) -> None:
    found = situation(*typed, given=DATA)
    assert slugs(found) == ([expected] if expected else [])
    if place is not None:
        span = found.problems[0].span
        assert (span.line, span.column, span.length) == place
        assert found.problems[0].sentence()
        assert found.diagram is None


@pytest.mark.parametrize(
    ("typed", "near"),
    [("chrage A", "charge"), ("pendulm m", "pendulum"), ("konverging lens, x", "converging lens")],
)
def test_a_word_that_was_meant_is_named(typed: str, near: str) -> None:
    (problem,) = situation(typed).problems
    assert f'perhaps "{near}" was meant' in problem.mend()


_WORDS = st.sampled_from(
    [
        "charge",
        "mass",
        "point",
        "block",
        "incline",
        "pendulum",
        "lift",
        "spring",
        "string",
        "A",
        "B",
        "q_A",
        "m",
        "θ",
        "3",
        "m",
        "0",
        "30°",
        "1e300",
        "-5",
        "kg",
        "nC",
        "right",
        "of",
        "above",
        "between",
        "and",
        "at",
        ",",
        "(",
        ")",
        "=",
        ";",
        ":",
        "before",
        "after",
        "rest",
        "over",
        "a",
        "pulley",
        "the",
        "surface",
        "hanging",
        "from",
        "ropes",
        "lens",
        "object",
        "converging",
        "focal",
        "length",
        "10",
        "cm",
        "mirror",
        "interface",
        "air",
        "glass",
        "incident",
        "ray",
        "source",
        "moving",
        "wave",
        "transverse",
        "force",
        "on",
        "velocity",
    ]
)


@given(st.lists(st.lists(_WORDS, max_size=9).map(" ".join), max_size=4))
@settings(deadline=None, max_examples=300)
def test_any_lines_end_in_a_picture_or_a_problem(typed: list[str]) -> None:
    found = situation(*typed, given=DATA)
    assert found.diagram is not None or found.problems
    if found.diagram is not None:
        drawn = figure(found)
        assert drawn.alternative
        assert all(math.isfinite(side) for side in (drawn.picture.box.width, drawn.picture.box.height))
        assert drawn.picture.box.height < 260


def result(value: str) -> Drawn:
    """A charge whose value is a result, found before."""
    from dataclasses import replace

    from physcalc.figures.situation_reading import SituationText
    from physcalc.figures.stage import draw
    from physcalc.problems import Span

    from .situation_cases import CONVENTIONS, scope_of, text

    scope = scope_of({"q": value})
    layer = {
        name: replace(datum, kind="result", number=None) if False else replace(datum, kind="result")
        for name, datum in scope.layers[0].items()
    }
    typed = (text("charge q"), text("charge B, 0.2 m right of q", 2), text("charge 2*q, 0.2 m above q", 3))
    return draw(SituationText(Span(), CONVENTIONS, typed), replace(scope, layers=(layer,)))


def test_a_paper_never_shows_the_value_of_a_result() -> None:
    found = result("-7 nC")
    paper, memo = figure(found, "paper"), figure(found, "memo")
    assert "q\u00a0=\u00a0−7\u00a0nC" in texts(memo.picture)
    assert "q" in texts(paper.picture)
    # What is computed from a result is a result, and so is its sign.
    for shown in (*texts(paper.picture), paper.alternative):
        assert "7" not in shown
        assert "14" not in shown
    assert "negative" not in paper.alternative
    assert paper.picture.with_role("sign q") == []
    assert len(memo.picture.with_role("sign q")) == 1


def test_values_may_be_left_out() -> None:
    shown = picture(situation("charge q_A", "charge 5 nC, 0.2 m right of q_A", given=DATA, values="no"))
    assert {"qA", "+5\u00a0nC"} <= set(texts(shown))


def test_every_word_has_all_languages() -> None:
    for key, row in SITUATION_WORDS.items():
        assert set(row) == {"en", "af", "de", "fr", "nl", "es", "pt"}
        fields = {frozenset(re.findall(r"\{(\w+)\}", text)) for text in row.values()}
        assert len(fields) == 1, key


ALL = [
    ["charge q_A", "charge q_B, 0.3 m right of q_A", "point P, 0.1 m left of q_A", "force F on q_A, right"],
    ["charge q_A", "charge q_B, 0.3 m right of q_A", "charge q_C = 5 nC, 0.4 m above q_A", "angle α at q_B between q_A and q_C"],
    ["pendulum m, length L, angle θ, height h_1", "velocity v of m, right"],
    ["lamp m hanging from ropes T_1 at 40° and T_2 at 60°"],
    ["load m hanging from a spring k = 40 N/m, extension x"],
    ["two charged balls q_A and q_B hanging from two points, length 0.4 m, angle θ, tension T, force F, d apart"],
    ["lift m on a cable T, person 70 kg", "acceleration a of lift, up"],
    ["incline θ, height h, length L", "block m_1 on the rough incline", "block m_2 hanging over a pulley, 1.2 m above the ground", "string T between m_1 and m_2"],
    ["incline 20°, length 3 m, height h, rising to the left", "crate m on the incline", "force F on m, up the slope"],
    ["block m_1 on a rough surface", "block m_2 on the surface", "block m_3 hanging over a pulley", "string T between m_1 and m_2", "force F = 20 N on m_1, left"],
    ["block m_1 hanging over a pulley", "block m_2 hanging over a pulley, 0.8 m above the ground", "string T between m_1 and m_2"],
    ["block m_1 on a smooth surface", "spring k between the wall and m_1", "velocity v of m_1, right"],
    ["before: trolley m_1 at v_1, right; trolley m_2 at rest", "after: m_1 and m_2 together at v, right"],
    ["projectile ball, speed v_i, angle θ, from height 20 m, range R, maximum height H"],
    ["converging lens, focal length f", "object, height 4 cm, 25 cm from the lens", "image, height h_i, distance v"],
    ["concave mirror, focal length f", "object, height 4 cm, 6 cm from the mirror", "image, height h_i, distance v"],
    ["plane mirror", "object, height 4 cm, 6 cm from the mirror"],
    ["interface: air (n_1) above glass (n_2)", "incident ray at 40°", "reflected ray at θ_a", "refracted ray at θ_b"],
    ["transverse wave, amplitude A, wavelength λ = 0.8 m, speed v, right"],
    ["longitudinal wave, wavelength λ, 3 wavelengths"],
    ["standing wave in a pipe closed at one end, 5 quarters, length L, wavelength λ"],
    ["source moving right at 20 m/s, speed of sound 60 m/s, observer A ahead, observer B behind"],
]  # fmt: skip


@pytest.mark.parametrize("typed", ALL, ids=[lines_[0][:28] for lines_ in ALL])
def test_labels_keep_clear_and_pictures_fit_the_page(typed: list[str]) -> None:
    found = situation(*typed, given=DATA)
    assert slugs(found) == []
    for edition in ("paper", "memo"):
        drawn = picture(found, edition)
        clear(drawn)
        assert drawn.box.width <= WIDEST + 1e-9
        assert all(label.size >= 8 for label in drawn.labels())


@pytest.mark.parametrize("lang", ["en", "af", "de", "fr", "nl", "es", "pt"])
def test_every_kind_describes_itself_in_every_language(lang: str) -> None:
    said = {figure(situation(*typed, given=DATA), lang=lang).alternative for typed in ALL}
    assert len(said) == len(ALL)
    assert not any("{" in words for words in said)


DOCUMENT = """---
lang: {lang}
---

# Question 1 {{.question #a}}

Two charges, `q_A`{{.value}} and `q_B`{{.value}}, are `r`{{.value}} apart.

```{{.given}}
q_A: 6.0 nC
q_B: -4.0 nC
r: 0.30 m
```

```{{.draw}}
situation:
  - charge q_A
  - charge q_B, r right of q_A
  - point P, 0.10 m left of q_A
```
"""


WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>')


def test_labels_stand_where_they_should_in_the_printed_page(tmp_path: Path) -> None:
    """In the PDF itself, by poppler: distances are three to one, and no word lies on another."""
    reader = program("pdftotext")
    from physcalc_filter.cli import main

    source = tmp_path / "a.md"
    source.write_text(DOCUMENT.format(lang="en"), encoding="utf-8")
    with suppress(SystemExit):
        main(["build", str(source), "-o", str(tmp_path / "a.pdf"), "--edition", "paper"])
    boxes = subprocess.run(
        [reader, "-bbox", str(tmp_path / "a.pdf"), "-"], check=True, capture_output=True, text=True
    ).stdout
    words = [(*map(float, found.groups()[:4]), html.unescape(found[5])) for found in WORD.finditer(boxes)]
    point = next(word for word in words if word[4] == "P")
    (short,) = (word for word in words if word[4].replace("\u00a0", "").startswith("0.10"))
    (long,) = (
        word for word in words[words.index(short) :] if word[4].replace("\u00a0", "").startswith("0.30")
    )
    assert short[1] == pytest.approx(long[1], abs=1)
    assert point[0] < short[0] < long[0]
    for at, one in enumerate(words):
        for other in words[:at]:
            apart = one[0] >= other[2] - 0.5 or other[0] >= one[2] - 0.5
            assert apart or one[1] >= other[3] - 3.5 or other[1] >= one[3] - 3.5, (one, other)


@pytest.mark.parametrize("format", ["typst", "latex", "html", "docx", "markdown"])
def test_every_format_has_the_picture(format: str) -> None:
    from physcalc_filter.document import write_json

    document, report = pipeline.build(Source("a.md", DOCUMENT.format(lang="en")), "paper", format)  # type: ignore[arg-type]
    assert document is not None, report.problems
    written = json.dumps(json.loads(write_json(document)), ensure_ascii=False).replace('\\"', '"')
    signs = {"typst": "#drawn(figure(alt:", "latex": "tikzpicture", "html": "<svg", "docx": "data:image/png"}
    assert signs.get(format, "data:image/svg") in written


def test_no_library_for_fields_is_loaded_without_one(tmp_path: Path) -> None:
    import sys

    path = tmp_path / "a.md"
    path.write_text(DOCUMENT.format(lang="en"), encoding="utf-8")
    code = (
        "import sys; from physcalc_filter.cli import main\n"
        f"try: main(['check', {str(path)!r}])\nexcept SystemExit: pass\n"
        "bad = [m for m in sys.modules if m.split('.')[0] in ('numpy', 'contourpy', 'matplotlib')]\nassert not bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def test_exact_values_stay_exact_until_they_are_drawn() -> None:
    found = scene("converging lens, focal length 1/3 m", "object, 1 m from the lens")
    assert isinstance(found, s.Optics)
    assert isinstance(found.image, Real)
    assert found.image.fraction == Fraction(1, 2)
    assert isinstance(circle(drawing("charge q_A"), "body q_A"), Circle)
