"""Circuits for tests: as an author describes them, and random ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from hypothesis import strategies as st
from physcalc_filter.figures.figure import Look
from physcalc_filter.figures.picture import Picture
from physcalc_filter.figures.stage import figure_of

from physcalc.checking.given import read_given
from physcalc.checking.scope import Scope
from physcalc.figures.circuit_parts import CircuitText
from physcalc.figures.drawn import Drawn
from physcalc.figures.stage import draw
from physcalc.language import Conventions, GivenText, read_name
from physcalc.problems import Span, Text

Key = str | Mapping[str, str]


def drawn(
    circuit: str | Sequence[str],
    data: Mapping[str, str] | None = None,
    earlier: Drawn | None = None,
    **keys: Key,
) -> Drawn:
    """The circuit of a block, with data around it, and what another one found earlier."""
    conventions = Conventions()
    items = [GivenText(Text(name), Text(value)) for name, value in (data or {}).items()]
    layer, problems = read_given(items, Scope(), conventions)
    assert not problems
    lines = [circuit] if isinstance(circuit, str) else circuit
    texts: dict[str, object] = {
        key: tuple((Text(one), Text(other)) for one, other in value.items())
        if isinstance(value, Mapping)
        else Text(value)
        for key, value in keys.items()
    }
    spans = [Span("a.md", at, 1, len(line)) for at, line in enumerate(lines, 1)]
    body = CircuitText(
        Span(),
        conventions,
        tuple(Text(line, span) for line, span in zip(lines, spans, strict=True)),
        **texts,  # type: ignore[arg-type]
    )
    return draw(body, Scope((layer, *([earlier.results] if earlier is not None else []))))


def slugs(found: Drawn) -> list[str]:
    return [problem.slug for problem in found.problems]


def value(found: Drawn, name: str) -> Fraction:
    """A result in SI units, exactly."""
    assert not [problem for problem in found.problems if problem.level != "note"], found.problems
    known = read_name(name)
    assert known is not None
    exact = found.results[known].quantity.value.fraction
    assert exact is not None
    return exact


def names(found: Drawn) -> set[str]:
    return {name.key for name in found.results}


def picture_of(found: Drawn, edition: str = "memo", printed: str = "12,50 Ω") -> Picture:
    assert found.diagram is not None, found.problems
    look = Look("en", edition, lambda datum: printed, Conventions())
    return figure_of(found.diagram, look).picture


# Random circuits of resistances in series and in parallel.


@dataclass(frozen=True)
class Net:
    """A resistance, or several in series or in parallel.

    Attributes:
        kind: "R", "series" or "parallel".
        size: of a resistance.
        inner: the others.
    """

    kind: str
    size: Fraction = Fraction(0)
    inner: tuple[Net, ...] = ()

    @property
    def resistance(self) -> Fraction:
        """Its resistance, by the rules for series and parallel."""
        if self.kind == "R":
            return self.size
        if self.kind == "series":
            return sum((one.resistance for one in self.inner), Fraction(0))
        return 1 / sum((1 / one.resistance for one in self.inner), Fraction(0))

    def currents(self, current: Fraction) -> list[Fraction]:
        """The current in each resistance, in order, where so much goes into all."""
        if self.kind == "R":
            return [current]
        if self.kind == "series":
            return [one for part in self.inner for one in part.currents(current)]
        voltage = current * self.resistance
        return [one for part in self.inner for one in part.currents(voltage / part.resistance)]

    def sizes(self) -> list[Fraction]:
        """The resistances in order."""
        return [self.size] if self.kind == "R" else [one for part in self.inner for one in part.sizes()]

    def text(self, numbers: list[int], extra: str = "") -> str:
        """As an author describes it; each resistance takes the next number."""
        if self.kind == "R":
            numbers.append(len(numbers) + 1)
            return f"R_{numbers[-1]}{extra and f' with V_{{v{numbers[-1]}}}'}"
        if self.kind == "series":
            return ", ".join(one.text(numbers, extra) for one in self.inner)
        return "(" + " | ".join(one.text(numbers, extra) for one in self.inner) + ")"


def _joined(kind: str) -> object:
    return lambda inner: st.lists(inner, min_size=2, max_size=3).map(
        lambda found: Net(kind, Fraction(0), tuple(found))
    )


_SIZES = st.integers(1, 2000).map(lambda n: Net("R", Fraction(n, 10)))
NETS: st.SearchStrategy[Net] = st.recursive(
    _SIZES,
    lambda inner: _joined("series")(inner) | _joined("parallel")(inner),
    max_leaves=7,  # type: ignore[operator]
)


def given_of(net: Net) -> dict[str, str]:
    return {f"R_{at}": f"{float(size):.1f} ohm" for at, size in enumerate(net.sizes(), 1)}
