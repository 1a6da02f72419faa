"""A page of every kind of part, built by hand: what the tests write and what one looks at."""

from __future__ import annotations

from collections.abc import Callable

import panflute as pf
import pytest
from physcalc_filter.editions.layout import Option, Row, layout_for
from physcalc_filter.editions.words import words_for


def words(text: str) -> list[pf.Inline]:
    """A sentence as inlines."""
    inlines: list[pf.Inline] = []
    for word in text.split(" "):
        inlines += [pf.Str(word), pf.Space()]
    return inlines[:-1]


def tex(source: str) -> pf.Math:
    return pf.Math(source, format="InlineMath")


def sample(format: str, *, memo: bool = True, lang: str = "en-ZA") -> pf.Doc:
    """A mechanics test of two questions, as memo or as paper."""
    page = layout_for(format, words_for(lang))
    stem = [
        *words("A goods lift of mass 640 kg is pulled up by a cable of negligible mass. It speeds up at"),
        pf.Space(),
        pf.Str("0,75\u00a0m·s⁻²."),
    ]
    law = page.question_head(
        "1.1",
        [
            pf.Para(*words("State Newton’s second law of motion in words."), *page.marks_margin("(2)")),
            *(
                page.definition(
                    [
                        pf.Para(
                            *words("The net force on a body gives it an acceleration"),
                            pf.Space(),
                            pf.Emph(*words("in the direction of the force")),
                            *page.ticks(1),
                            *words(", which grows with the force and shrinks with the"),
                            pf.Space(),
                            pf.Emph(pf.Str("mass")),
                            *page.ticks(1),
                            pf.Str("."),
                        )
                    ]
                )
                if memo
                else page.writing_lines(3)
            ),
        ],
    )
    tension = [
        Row(r"F_{\text{net}}", r"m\,a", ticks=1),
        Row(r"T - m\,g", r"m\,a"),
        Row(
            r"T - (\text{640})(\text{9,8})",
            r"(\text{640})(\text{0,75})",
            ticks=2,
        ),
        Row("T", r"\text{6 752,00}\ \text{N}", ticks=1, total="(4)"),
    ]
    energy = [
        Row(r"W_{\text{nc}}", r"\Delta E_{\text{k}} + \Delta E_{\text{p}}", ticks=1),
        Row(
            r"W_{\text{nc}}",
            r"\dfrac{1}{2}\,m\,v_{\text{f}}^{2} - \dfrac{1}{2}\,m\,v_{\text{i}}^{2}"
            r" + m\,g\,h_{\text{f}} - m\,g\,h_{\text{i}}",
        ),
        Row(
            "",
            r"\dfrac{1}{2}(\text{640})(\text{3,05})^{2} - \dfrac{1}{2}(\text{640})(\text{1,20})^{2}"
            r" + (\text{640})(\text{9,8})(\text{14,6}) - (\text{640})(\text{9,8})(\text{2,1})",
            ticks=2,
        ),
        Row("", r"\text{8,09} \times 10^{4}\ \text{J}", ticks=1),
        Row(
            remark=words("The cable does positive work on the lift, because it pulls along the motion."),
            ticks=1,
            total="(5)",
        ),
    ]
    charge = [
        Row("F", r"\dfrac{k\,Q_{1}\,Q_{2}}{r^{2}}", ticks=1),
        Row(
            "F",
            r"\dfrac{(\text{9,0} \times 10^{9})"
            r"(\text{6,0} \times 10^{-6})(\text{4,5} \times 10^{-6})}{(\text{0,15})^{2}}",
            ticks=1,
        ),
        Row("", r"\text{10,80}\ \text{N}", ticks=1),
        Row(
            r"E_{\text{k,i}} + E_{\text{p,i}} + W_{\text{nc}} + Q_{\text{lost to the surroundings}}"
            r" - \dfrac{1}{2}\,m\,v^{2}",
            r"E_{\text{k,f}} + E_{\text{p,f}}",
            ticks=1,
        ),
        Row("a", r"\text{−4,17} \times 10^{-7}\ \text{m·s⁻²}", "≈", ticks=1, total="(5)"),
    ]

    def part(number: str, text: str, marks: str, rows: list[Row]) -> list[pf.Block]:
        ask = pf.Para(*words(text), *page.marks_margin(marks))
        return page.question_head(number, [ask, *(page.working(rows) if memo else page.writing_lines(4))])

    options = [
        Option("A", [tex(r"\dfrac{1}{4}\,F")]),
        Option("B", [tex(r"\dfrac{1}{2}\,F")]),
        Option("C", [tex(r"2\,F")]),
        Option("D", [tex(r"4\,F")], ticks=2 if memo else 0),
    ]
    longer = [
        Option("A", words("The readings of both scales grow.")),
        Option("B", words("Only the upper scale reads more.")),
        Option("C", words("Neither reading changes."), ticks=2 if memo else 0),
        Option("D", words("Only the lower scale reads more.")),
    ]
    longest = [
        Option(
            "A",
            words("The upward force of the cable on the lift is exactly as large as its weight."),
        ),
        Option(
            "B",
            words(
                "The lift pulls the cable down as strongly as the cable pulls the lift up, so nothing moves."
            ),
        ),
    ]
    blocks = [
        pf.Header(*words("Question 1"), level=1),
        pf.Para(*stem),
        *law,
        *part("1.2", "Calculate the magnitude of the tension in the cable.", "(4)", tension),
        *part(
            "1.3",
            "Use energy to calculate the work that the cable does while the lift rises from 2,1 m"
            " to 14,6 m above the floor and its speed grows to 3,05 m·s⁻¹.",
            "(5)",
            energy,
        ),
        *page.total_line("[11]"),
        pf.Header(*words("Question 2"), level=1),
        *page.question_head(
            "2.1",
            [
                pf.Para(
                    *words("The distance between two charges is halved. The force is then"),
                    *page.marks_margin("(2)"),
                ),
                *page.option_list(options),
            ],
        ),
        *page.question_head(
            "2.2", [pf.Para(*words("Which is true?"), *page.marks_margin("(2)")), *page.option_list(longer)]
        ),
        *page.question_head(
            "2.3",
            [pf.Para(*words("And which of these?"), *page.marks_margin("(2)")), *page.option_list(longest)],
        ),
        *part("2.4", "Calculate the force between the spheres.", "(5)", charge),
        *(page.heading_word("Slips to avoid") if memo else []),
        *(
            page.framed(
                [
                    pf.Para(
                        pf.Strong(*words("answer-disagrees")),
                        pf.Space(),
                        *words("T is 6 752,00 N, the document says 6 725 N"),
                    )
                ]
            )
            if memo
            else []
        ),
        *page.total_line("[11]"),
    ]
    meta = {
        "title": pf.MetaInlines(*words("Mechanics test")),
        "lang": lang,
        "date": "12 March",
        "time": "45 minutes",
        "physcalc": {"total": "22", "sheet": "school"},
        "instructions": pf.MetaList(
            pf.MetaInlines(*words("Answer both questions.")),
            pf.MetaInlines(*words("Round to two decimal places.")),
        ),
    }
    return pf.Doc(*blocks, metadata=meta)


@pytest.fixture
def page() -> Callable[..., pf.Doc]:
    """The page as a function of the format and the edition."""
    return sample
