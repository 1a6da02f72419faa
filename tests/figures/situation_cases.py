"""Situations and fields as tests draw them."""

from __future__ import annotations

from collections.abc import Mapping

from physcalc_filter.figures.figure import Figure, Look
from physcalc_filter.figures.letters import box_of
from physcalc_filter.figures.picture import Circle, Line, Picture
from physcalc_filter.figures.stage import figure_of

from physcalc.checking.given import read_given
from physcalc.checking.printing import printed_datum
from physcalc.checking.scope import Datum, Scope
from physcalc.exact import NumberStyle
from physcalc.figures import situation_scenes as s
from physcalc.figures.drawn import Drawn
from physcalc.figures.situation_reading import FieldText, SituationText
from physcalc.figures.stage import draw
from physcalc.language import Conventions, GivenText
from physcalc.language.plain import plain_printed
from physcalc.problems import Span, Text

STYLE = NumberStyle(decimal=".")
CONVENTIONS = Conventions(style=STYLE)


def scope_of(given: Mapping[str, str]) -> Scope:
    items = [GivenText(Text(name), Text(value)) for name, value in given.items()]
    layer, problems = read_given(items, Scope(), CONVENTIONS)
    assert not problems
    return Scope((layer,))


def text(line: str, at: int = 1) -> Text:
    return Text(line, Span("", at, 1, max(1, len(line))))


def situation(*lines: str, given: Mapping[str, str] | None = None, values: str | None = None) -> Drawn:
    typed = tuple(text(line, at) for at, line in enumerate(lines, 1))
    body = SituationText(Span(), CONVENTIONS, typed, Text(values) if values else None)
    return draw(body, scope_of(given or {}))


def field(*lines: str, given: Mapping[str, str] | None = None, **keys: str) -> Drawn:
    typed = tuple(text(line, at) for at, line in enumerate(lines, 1))
    body = FieldText(Span(), CONVENTIONS, typed, **{key: Text(value) for key, value in keys.items()})
    return draw(body, scope_of(given or {}))


def slugs(found: Drawn) -> list[str]:
    return [problem.slug for problem in found.problems]


def printed(datum: Datum) -> str:
    return plain_printed(printed_datum(datum, STYLE), STYLE)


def figure(found: Drawn, edition: str = "memo", lang: str = "en") -> Figure:
    assert found.diagram is not None, [str(problem) for problem in found.problems]
    return figure_of(found.diagram, Look(lang, edition, printed, CONVENTIONS))


def picture(found: Drawn, edition: str = "memo") -> Picture:
    return figure(found, edition).picture


def lines(drawing: Picture, role: str) -> list[Line]:
    return [shape for shape in drawing.with_role(role) if isinstance(shape, Line)]


def circle(drawing: Picture, role: str) -> Circle:
    (found,) = (shape for shape in drawing.with_role(role) if isinstance(shape, Circle))
    return found


def texts(drawing: Picture) -> list[str]:
    return [label.text for label in drawing.labels()]


def clear(drawing: Picture) -> None:
    """Labels keep clear of one another and of the edge of the picture."""
    boxes = [(label.text, box_of(label)) for label in drawing.labels()]
    for at, (one, box) in enumerate(boxes):
        for other, there in boxes[:at]:
            assert not box.meets(there), (one, other)
        assert drawing.box.left <= box.left, one
        assert box.right <= drawing.box.right, one
        assert drawing.box.bottom <= box.bottom, one
        assert box.top <= drawing.box.top, one


DATA = {
    "q_A": "6 nC", "q_B": "-4 nC", "m": "2 kg", "m_1": "4 kg", "m_2": "6 kg", "θ": "30°", "v_1": "5 m/s",
    "v_2": "2 m/s", "f": "10 cm", "n_1": "1.00", "n_2": "1.50", "g": "9.8 m/s^2",
}  # fmt: skip


def scene(*typed: str) -> s.Scene:
    found = situation(*typed, given=DATA)
    assert isinstance(found.diagram, s.SituationDiagram), [str(problem) for problem in found.problems]
    return found.diagram.scene


def drawing(*typed: str) -> Picture:
    return picture(situation(*typed, given=DATA))
