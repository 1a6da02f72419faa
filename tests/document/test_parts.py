"""Parts of values and words that follow from values, typed in the text (the language reference, "Parts of a value").

The words are common usage of school books; no source. That like charges repel and unlike ones attract is Coulomb's law.
"""

from __future__ import annotations

import pytest
from physcalc_filter import pipeline
from physcalc_filter.fixing import fix
from physcalc_filter.sources import Source

from physcalc.problems import Problem

BLOCKS = """
```{.given}
q_A: 3 nC
q_C: -8 nC
n: 0 nC
v: 6 m/s, left
T: -5 °C
F_1: 3 N at 0°
F_2: 4 N at 90°
m: 2 kg
```

```{.calc #sum}
formula: q_B = (q_A + q_C) / 2
find: q_B in nC to 2 dp
marks: 1
```

```{.calc #speed}
given:
  u: 2 m/s, left
  w: 2 m/s, right
formula: u_f = u + w
find: u_f in m/s
marks: 1
```

```{.calc #momentum}
formula: p = m v
find: p in kg·m/s to 1 dp with direction
marks: 1
```

```{.calc #net}
formula: R = F_1 + F_2
find: R in N to 2 dp with direction
marks: 1
```

```{.calc #ratio}
use: coulomb
change: r doubled
find: F
marks: 1
```
"""


def document(span: str, lang: str = "en-ZA", answered: bool = True) -> str:
    text = f"::: {{.answer marks=1}}\nIt is {span} then.\n:::\n" if answered else f"It is {span} then.\n"
    head = f"---\nlang: {lang}\n---\n\n# Question 1 {{.question axis='right is positive'}}\n\n"
    return head + text + BLOCKS


def problems(span: str, lang: str = "en-ZA", answered: bool = True) -> list[Problem]:
    found = pipeline.check(Source("test.md", document(span, lang, answered))).problems
    return [problem for problem in found if problem.level != "note"]


def tidy(text: str) -> str:
    return text.replace("\u00a0", " ").replace("\u202f", " ")


@pytest.mark.parametrize(
    "span",
    [
        "[−2,5]{.value of=q_B part=number}",
        "[−2.50]{.value of=q_B part=number}",
        "[−3]{.value of=q_B part=number}",  # the computed value, rounded as the typed digits are
        "[−0,0025]{.value of=q_B part=number in=µC}",
        "[−2,5 × 10^−9^]{.value of=q_B part=number in=C}",
        "[3]{.value of=q_A part=number}",
        "[3000]{.value of=q_A part=number in=pC}",
        "[12,0]{.value of=p part=number}",
        "[5]{.value of=R part=number}",
        "[nC]{.value of=q_B part=unit}",
        "[µC]{.value of=q_B part=unit in=µC}",
        "[N·s]{.value of=p part=unit}",  # kg·m·s⁻¹ by another name
        "[kg m s^-1^]{.value of=p part=unit}",
        "[N]{.value of=R part=unit}",
        "[left]{.value of=v part=direction}",
        "[To the left]{.value of=p part=direction}",
        "[at rest]{.value of=u_f part=direction}",
        "[at 53,13°]{.value of=R part=direction}",
        "[negative]{.value of=q_B part=sign}",
        "[−]{.value of=q_B part=sign}",
        "[+]{.value of=q_A part=sign}",
        "[positive]{.value of=q_A part=sign}",
        "[neutral]{.value of=n part=sign}",
        "[Negative]{.value of=v part=sign}",
        "[negative]{.value of=T part=sign}",
        '[attract]{.value of="q_A q_B" part=force}',
        '[attractive]{.value of="q_A, q_B" part=force}',
        '[repel each other]{.value of="q_C q_B" part=force}',
        '[Repulsion]{.value of="q_C q_B" part=force}',
        "[decreases]{.value of=F part=change}",
        "[1/4]{.value of=F part=change}",
        "[decreases to 1/4]{.value of=F part=change}",
    ],
)
def test_it_agrees(span: str) -> None:
    assert [str(problem) for problem in problems(span)] == []


@pytest.mark.parametrize(
    ("span", "slug", "says"),
    [
        ("[2,5]{.value of=q_B part=number}", "answer-disagrees", "q_B is −2,50 nC, the document says 2,5 nC"),
        (
            "[−2,6]{.value of=q_B part=number}",
            "answer-disagrees",
            "q_B is −2,50 nC, the document says −2,6 nC",
        ),
        ("[4]{.value of=q_A part=number}", "datum-disagrees", "q_A is 3 nC, the document says 4 nC"),
        ("[3,01]{.value of=q_A part=number}", "datum-disagrees", "q_A is 3 nC, the document says 3,01 nC"),
        ("[C]{.value of=q_B part=unit}", "answer-disagrees", "the unit of q_B is nC, the document says C"),
        ("[N]{.value of=q_A part=unit}", "datum-disagrees", "the unit of q_A is nC, the document says N"),
        (
            "[right]{.value of=p part=direction}",
            "direction-disagrees",
            "the direction of p is to the left, the document says right",
        ),
        (
            "[to the right]{.value of=v part=direction}",
            "datum-disagrees",
            "the direction of v is to the left, the document says to the right",
        ),
        (
            "[left]{.value of=u_f part=direction}",
            "answer-disagrees",
            "the direction of u_f is none (at rest: it is zero), the document says left",
        ),
        (
            "[at rest]{.value of=p part=direction}",
            "direction-disagrees",
            "the direction of p is to the left, the document says at rest",
        ),
        (
            "[at 35°]{.value of=R part=direction}",
            "answer-disagrees",
            "the direction of R is at 53,13°, the document says at 35°",
        ),
        (
            "[positive]{.value of=q_B part=sign}",
            "answer-disagrees",
            "the sign of q_B is negative, the document says positive",
        ),
        ("[−]{.value of=q_A part=sign}", "datum-disagrees", "the sign of q_A is +, the document says −"),
        (
            '[repel]{.value of="q_A q_B" part=force}',
            "answer-disagrees",
            "the force between q_A and q_B is attraction, the document says repel",
        ),
        ("[doubles]{.value of=F part=change}", "answer-disagrees", "F is 1/4 times what it was (decreases)"),
        ("[increases]{.value of=F part=change}", "answer-disagrees", 'the document says "increases"'),
    ],
)
def test_one_problem_says_both(span: str, slug: str, says: str) -> None:
    (problem,) = problems(span)
    assert problem.slug == slug
    assert says in tidy(problem.sentence())


@pytest.mark.parametrize(
    ("span", "slug", "says"),
    [
        ("[postive]{.value of=q_B part=sign}", "word-unknown", "is positive meant?"),
        ('[attrakt]{.value of="q_A q_B" part=force}', "word-unknown", "is attract meant?"),
        ("[up]{.value of=p part=direction}", "direction-unknown", "the axis has to the right"),
        ("[−2,5 nC]{.value of=q_B part=number}", "quantity-unreadable", "write the number alone"),
        ("[kgs]{.value of=m part=unit}", "unit-unknown", "kgs"),
        (
            "[−2,5]{.value of=q_B part=number in=kg}",
            "unit-dimension-wrong",
            "q_B is measured in nC, not in kg",
        ),
        ("[positive]{.value of=R part=sign}", "part-unfit", "it is a vector in a plane"),
        ('[attract]{.value of="q_A m" part=force}', "part-unfit", "m is measured in kg"),
        ('[attract]{.value of="q_A n" part=force}', "part-unfit", "n is zero, so there is no force"),
        ('[attract]{.value of="q_A" part=force}', "part-unfit", "name both"),
        (
            "[halves]{.value of=q_B part=change}",
            "part-unfit",
            "no calculation of this question asks how q_B changes",
        ),
        ("[2]{.value of=q_B part=numbr}", "attribute-unreadable", 'write "number"'),
        ("[negative]{.value of=q_B part=sign in=C}", "attribute-unknown", '"in"'),
        ("`q_B`{.value part=sign}", "attribute-unknown", '"part"'),
        ("[positive]{.value of=q_X part=sign}", "name-without-value", "q_X"),
        ('[attract]{.value of="q_A q_X" part=force}', "name-without-value", "q_X"),
    ],
)
def test_what_cannot_be_checked_is_told(span: str, slug: str, says: str) -> None:
    (problem,) = problems(span)
    assert problem.slug == slug
    assert says in tidy(f"{problem.sentence()} {problem.mend()}")


@pytest.mark.parametrize(
    "span",
    [
        "[−2,5]{.value of=q_B part=number}",
        "[left]{.value of=p part=direction}",
        "[negative]{.value of=q_B part=sign}",
        '[attract]{.value of="q_A q_B" part=force}',
        "[decreases]{.value of=F part=change}",
    ],
)
def test_the_paper_must_not_give_a_result_away(span: str) -> None:
    assert [problem.slug for problem in problems(span, answered=False)] == ["answer-printed"]


@pytest.mark.parametrize(
    "span",
    [
        "[nC]{.value of=q_B part=unit}",  # in which unit is asked gives nothing away
        "[3]{.value of=q_A part=number}",
        "[left]{.value of=v part=direction}",
        '[attract]{.value of="q_A q_C" part=force}',
    ],
)
def test_what_is_given_may_stand_in_the_paper(span: str) -> None:
    assert problems(span, answered=False) == []


@pytest.mark.parametrize(
    ("lang", "right", "wrong"),
    [
        (
            "af",
            ("negatief", "links", "na links", "trek mekaar aan", "neem af"),
            ("positief", "regs", "halveer"),
        ),
        (
            "de",
            ("negativ", "nach links", "ziehen sich an", "nimmt ab"),
            ("positiv", "nach rechts", "verdoppelt sich"),
        ),
        ("fr", ("négative", "vers la gauche", "s’attirent", "diminue"), ("positif", "à droite", "augmente")),
        (
            "nl",
            ("negatief", "naar links", "aantrekking", "neemt af"),
            ("positief", "naar rechts", "verdubbelt"),
        ),
        (
            "es",
            ("negativa", "hacia la izquierda", "se atraen", "disminuye"),
            ("positivo", "a la derecha", "aumenta"),
        ),
        ("pt", ("negativa", "para a esquerda", "atraem-se", "diminui"), ("positivo", "à direita", "duplica")),
    ],
)
def test_words_of_the_documents_language(lang: str, right: tuple[str, ...], wrong: tuple[str, ...]) -> None:
    attributes = {"sign": "of=q_B", "direction": "of=p", "force": 'of="q_A q_B"', "change": "of=F"}

    def agreeing(word: str) -> list[str]:
        """For which parts a word is understood and right."""
        spans = {part: f"[{word}]{{.value {of} part={part}}}" for part, of in attributes.items()}
        return [part for part, span in spans.items() if not problems(span, lang)]

    for word in right:
        assert len(agreeing(word)) == 1, word
    for word in wrong:
        assert agreeing(word) == [], word
    # English is understood in every document.
    assert agreeing("negative") == ["sign"]
    assert agreeing("halves") == []
    assert agreeing("decreases") == ["change"]


def test_a_document_in_another_language_is_answered_in_its_words() -> None:
    (problem,) = problems("[nach rechts]{.value of=p part=direction}", "de")
    assert problem.sentence() == "the direction of p is nach links, the document says nach rechts"
    (problem,) = problems("[positiv]{.value of=q_B part=sign}", "de")
    assert problem.sentence() == "the sign of q_B is negativ, the document says positiv"


def test_the_axis_of_the_calculation_counts() -> None:
    text = "# Question 1 {.question}\n\n::: {.answer marks=1}\nIt goes [%s]{.value of=v part=direction}.\n:::\n\n"
    text += "```{.calc}\naxis: up is positive\ngiven:\n  a: 2 m/s^2, down\n  t: 3 s\nformula: v = a t\nfind: v in m/s\n"
    text += "marks: 2\n```\n"
    slugs = [
        [p.slug for p in pipeline.check(Source("a.md", text % word)).problems] for word in ("down", "up")
    ]
    assert slugs == [[], ["direction-disagrees"]]


def test_without_an_axis_there_is_no_direction() -> None:
    text = "# Question 1 {.question}\n\n::: {.answer marks=1}\nIt goes [left]{.value of=v part=direction}.\n:::\n\n"
    text += "```{.calc}\ngiven:\n  a: 2 m/s^2\n  t: 3 s\nformula: v = a t\nfind: v in m/s\nmarks: 2\n```\n"
    (problem,) = pipeline.check(Source("a.md", text)).problems
    assert problem.slug == "part-unfit"
    assert "axis: right is positive" in problem.mend()


def test_a_value_to_be_shown_is_what_counts() -> None:
    text = "# Question 1 {.question}\n\nShow that it is [%s]{.value of=F part=number} [kN]{.value of=F part=unit}.\n\n"
    text += "```{.calc}\ngiven:\n  m: 640 kg\n  a: 0.75 m/s^2\nformula: F = m a\nfind: F in N\nshow: 0.5 kN\n```\n"
    slugs = [
        [p.slug for p in pipeline.check(Source("a.md", text % word)).problems] for word in ("0.5", "0.48")
    ]
    assert slugs == [[], ["datum-disagrees"]]


@pytest.mark.parametrize(
    ("span", "mended"),
    [
        ("[−2,6]{.value of=q_B part=number}", "[−2,5]{.value of=q_B part=number}"),
        ("[C]{.value of=q_B part=unit}", "[nC]{.value of=q_B part=unit}"),
        ("[right]{.value of=p part=direction}", "[left]{.value of=p part=direction}"),
        ("[Positive]{.value of=q_B part=sign}", "[Negative]{.value of=q_B part=sign}"),
        ("[+]{.value of=q_B part=sign}", "[−]{.value of=q_B part=sign}"),
        ('[repulsion]{.value of="q_A q_B" part=force}', '[attraction]{.value of="q_A q_B" part=force}'),
        ("[4]{.value of=q_A part=number}", "[4]{.value of=q_A part=number}"),  # data are never changed
        ("[−]{.value of=q_A part=sign}", "[−]{.value of=q_A part=sign}"),
    ],
)
def test_a_wrong_part_of_a_result_is_mended_in_the_authors_way(span: str, mended: str) -> None:
    source = Source("test.md", document(span))
    fixed = fix(source, lambda text: pipeline.check(text).problems)
    assert fixed.source.text == document(mended)


def test_a_change_asked_twice_is_ambiguous() -> None:
    again = "\n```{.calc}\nuse: coulomb\nchange: r halved\nfind: F\nmarks: 1\n```\n"
    text = document("[decreases]{.value of=F part=change}") + again
    slugs = [problem.slug for problem in pipeline.check(Source("test.md", text)).problems]
    assert slugs == ["name-ambiguous"]


def test_a_part_of_what_failed_is_silent() -> None:
    text = document("[negative]{.value of=q_B part=sign}").replace("(q_A + q_C) / 2", "(q_A + m) / 2")
    slugs = [problem.slug for problem in pipeline.check(Source("test.md", text)).problems]
    assert slugs == ["dimensions-differ"]
