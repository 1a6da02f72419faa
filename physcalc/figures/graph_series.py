"""One set of data, or one motion, of a graph: from what an author says to what is drawn and found."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Literal, TypeVar

from ..checking.scope import Scope
from ..exact import RealError, Spread
from ..language import tree as t
from ..language.names import Name, read_name
from ..problems import Problem, Text, nearest
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_graphs import FitPointsFew, FitUnweighted, FitUpright, WorstLineMissing
from .fit import FitError, LineFit, WorstLines, fit_both, fit_line, worst_lines
from .graph_axes import AxisMaking, amounts, beyond
from .graph_diagram import MARKS, Found, Mark, Pair, Point, Series, SeriesText, Stretch
from .graph_found import Sources, find_quantity
from .graph_pieces import MOST_PIECES, read_curve, read_pieces
from .graph_points import read_points
from .graph_table import printed_table

#: The name of a series in words has so many letters at most.
_LONGEST_NAME = 30
#: More points than this have no worst lines: their number of pairs grows with its square.
_MOST_WORST = 200

_FIT_WORDS = (
    "line", "through", "the", "origin", "unweighted", "with", "without", "uncertainty", "by", "both", "uncertainties",
)  # fmt: skip
_FIT = (
    "line, line through origin, unweighted line, line by both uncertainties; "
    "with uncertainty or without uncertainty behind it"
)

_Made = TypeVar("_Made")


def caught(make: Callable[[], _Made], problems: list[Problem]) -> _Made | None:
    """What is made, or None with its problem taken."""
    try:
        return make()
    except Problem as problem:
        problems.append(problem)
    return None


class SeriesMaker:
    """One series in the making: a table may give several."""

    def __init__(
        self, text: SeriesText, x: AxisMaking, y: AxisMaking, scope: Scope, problems: list[Problem]
    ) -> None:
        self.text, self.x, self.y, self.scope, self.problems = text, x, y, scope, problems

    def all(self) -> list[Series]:
        text = self.text
        label, words = self.label()
        mark = self.mark()
        sets, columns = (
            read_points(text.points, self.x, self.y, self.scope, self.problems) if text.points else ([], [])
        )
        wanted = self.yes(text.table, "whether the data are shown")
        table = printed_table(columns, self.x.conventions) if wanted else None
        stretches = read_pieces(text.pieces, self.x, self.y, self.scope, self.problems)
        curves: list[tuple[Name | None, Stretch]] = []
        for line in text.curves[:MOST_PIECES]:
            curve = caught(partial(read_curve, line, self.x, self.y, self.scope), self.problems)
            curves += [curve] if curve is not None else []
        for line in text.curves[MOST_PIECES:]:
            form = f"at most {MOST_PIECES} curves, or nobody could read the picture"
            self.problems.append(FigurePhraseUnreadable(line.span, "a curve of this graph", line.value, form))
        if any(problem.level != "note" for problem in self.problems):
            return []
        out: list[Series] = []
        for at, (name, points) in enumerate(sets):
            own = t.Sym(name) if name is not None else label
            style: Mark = mark or MARKS[at % len(MARKS)]  # type: ignore[assignment]
            shown = table if at == 0 else None
            plotted = Series(own, words, tuple(points), mark=style, table=shown)
            out.append(self.made(plotted, at == 0 and not stretches))
        if stretches:
            out.append(self.made(Series(label, words, (), tuple(stretches), joined=True), True))
        for at, (name, curve_stretch) in enumerate(curves):
            own = t.Sym(name) if name is not None else label
            out.append(self.made(Series(own, words, (), (curve_stretch,)), at == 0 and not out))
        return out

    def label(self) -> tuple[t.Expr | None, str]:
        if self.text.name is None:
            return None, ""
        name = read_name(self.text.name.value)
        # A word of several letters is a word, not a symbol: "bus", "trial 1".
        if name is not None and (len(name.base) == 1 or name.subscript):
            return t.Sym(name), ""
        words = self.text.name.value.strip()
        if len(words) > _LONGEST_NAME:
            form = f"at most {_LONGEST_NAME} letters"
            raise FigurePhraseUnreadable(self.text.name.span, "the name of a series", words, form)
        return None, words

    def mark(self) -> Mark | None:
        if self.text.mark is None:
            return None
        for mark in MARKS:
            if self.text.mark.value.strip() == mark:
                return mark  # type: ignore[return-value]
        typed = self.text.mark.value.strip()
        form = f"{', '.join(MARKS[:-1])} or {MARKS[-1]}"
        raise FigurePhraseUnreadable(
            self.text.mark.span, "how points are marked", typed, form, nearest(typed, MARKS)
        )

    def made(self, series: Series, first: bool) -> Series:
        """A series with its line of best fit and what it gives."""
        text = self.text
        fit, uncertain = (None, False)
        if text.fit is not None and series.points:
            fit, uncertain = self.fit(series.points, text.fit)
        elif text.fit is not None and first:
            raise FitPointsFew(text.fit.span, 0, 2)
        spreads = self.spreads(fit) if fit is not None and uncertain else (None, None)
        worst = self.worst(series.points) if series.points else None
        tangents: list[tuple[Pair, Fraction]] = []
        known = Sources(self.x, self.y, series.stretches, fit, spreads, worst, self.scope, tangents)
        found: list[Found] = []
        for kind, phrase in text.found if first else ():
            one = caught(partial(find_quantity, kind, phrase, known), self.problems)
            found += [one] if one is not None else []
        shown: tuple[Pair, ...] = ()
        if worst is not None:
            kinds = {kind for kind, _ in text.found}
            both = self.yes(text.worst, "whether the worst lines are drawn")
            shown = tuple(
                line
                for kind, line in (("steepest", worst.steepest), ("shallowest", worst.shallowest))
                if both or kind in kinds
            )
        return replace(
            series,
            fit=fit,
            worst=shown,
            triangle=self.triangle(series, fit) if first else None,
            tangents=tuple(tangents),
            found=tuple(found),
        )

    def fit(self, points: Sequence[Point], said: Text) -> tuple[LineFit, bool]:
        words = said.value.split()
        through, unweighted = "origin" in words, "unweighted" in words
        both = any(word in words for word in ("by", "both", "uncertainties"))
        if (
            "line" not in words
            or any(word not in _FIT_WORDS for word in words)
            or ("through" in words) != through
            or both != ("by both uncertainties" in " ".join(words))
            or (both and unweighted)
        ):
            near = nearest(
                said.value, ("line", "line through origin", "unweighted line", "line by both uncertainties")
            )
            raise FigurePhraseUnreadable(said.span, "a fit", said.value, _FIT, near)
        if both:
            return self.fit_both(points, said, through), "without" not in words
        bars = [point.y_bar for point in points]
        known = [bar for bar in bars if bar]
        weighted = len(known) == len(points) and bool(known) and not unweighted
        if known and not weighted and not unweighted:
            bare = next(point for point in points if not point.y_bar)
            self.problems.append(FitUnweighted(bare.y_text.span, bare.y_text.value))
        uncertain = ("with" in words) if "uncertainty" in words else weighted
        needed = 1 if through else 2
        needed += 1 if uncertain and not weighted else 0
        if len(points) < needed:
            raise FitPointsFew(said.span, len(points), needed)
        try:
            xs, ys = [point.x for point in points], [point.y for point in points]
            return fit_line(xs, ys, known if weighted else None, through), uncertain
        except FitError:
            raise FitUpright(said.span, self.x.key) from None
        except RealError as error:
            raise beyond(said.span, error) from None

    def fit_both(self, points: Sequence[Point], said: Text, through: bool) -> LineFit:
        """The line of best fit that counts the uncertainties of x and of y."""
        for point in points:
            for bar, text in ((point.x_bar, point.x_text), (point.y_bar, point.y_text)):
                if not bar:
                    form = f"{text.value} with its uncertainty: {text.value} ± …"
                    raise FigurePhraseUnreadable(text.span, "a point of a fit by both", text.value, form)
        if len(points) < (1 if through else 2):
            raise FitPointsFew(said.span, len(points), 1 if through else 2)
        xs, ys = [point.x for point in points], [point.y for point in points]
        across, up = (
            [point.x_bar or Fraction(0) for point in points],
            [point.y_bar or Fraction(0) for point in points],
        )
        try:
            return fit_both(xs, ys, across, up, through)
        except FitError:
            raise FitUpright(said.span, self.x.key) from None
        except RealError as error:
            raise beyond(said.span, error) from None

    def spreads(self, fit: LineFit) -> tuple[Spread | None, Spread | None]:
        try:
            return fit.deviations()
        except RealError as error:
            assert self.text.fit is not None
            raise beyond(self.text.fit.span, error) from None

    def worst(self, points: Sequence[Point]) -> WorstLines | None:
        asked = [phrase for kind, phrase in self.text.found if kind in ("steepest", "shallowest")]
        if self.yes(self.text.worst, "whether the worst lines are drawn"):
            asked = [self.text.worst, *asked]  # type: ignore[list-item]
        if not asked or not any(point.y_bar for point in points):
            return None
        if len(points) > _MOST_WORST:
            form = f"worst lines for at most {_MOST_WORST} points"
            raise FigurePhraseUnreadable(asked[0].span, "the worst lines of this graph", asked[0].value, form)
        try:
            bars = [point.y_bar or Fraction(0) for point in points]
            lines = worst_lines([point.x for point in points], [point.y for point in points], bars)
        except FitError:
            raise FitUpright(asked[0].span, self.x.key) from None
        if lines is None:
            raise WorstLineMissing(asked[0].span)
        return lines

    def triangle(self, series: Series, fit: LineFit | None) -> tuple[Pair, Pair] | Literal["fitting"] | None:
        said = self.text.triangle
        if said is None or said.value.strip() == "no":
            return None
        if said.value.strip() == "yes":
            if fit is None:
                raise FigurePhraseUnreadable(
                    said.span,
                    "a triangle here",
                    "yes",
                    "a stretch of a straight piece, 0 s to 4 s, or a fit as well",
                )
            return "fitting"
        low, separator, _ = said.value.partition(" to ")
        if not separator:
            raise FigurePhraseUnreadable(
                said.span, "the gradient triangle", said.value, "yes, no, or 1.0 s to 5.0 s"
            )
        ends = amounts(said.part(0, len(low)), said.part(len(low) + len(separator)), self.x, self.scope)
        start, end = (self.x.number(one) for one in ends)
        if start >= end:
            raise FigurePhraseUnreadable(
                said.span, "the gradient triangle", said.value, "yes, no, or 1.0 s to 5.0 s"
            )
        if fit is not None:
            return (start, fit.at(start)), (end, fit.at(end))
        for piece in series.stretches:
            if piece.curve is None and piece.start <= start and end <= piece.end:
                (x_0, y_0), (x_1, y_1) = piece.first, piece.last
                rate = (y_1 - y_0) / (x_1 - x_0)
                return (start, y_0 + rate * (start - x_0)), (end, y_0 + rate * (end - x_0))
        raise FigurePhraseUnreadable(
            said.span, "a triangle here", said.value, "a stretch of one straight piece"
        )

    def yes(self, text: Text | None, what: str) -> bool:
        if text is None:
            return False
        word = text.value.strip()
        if word not in ("yes", "no"):
            raise FigurePhraseUnreadable(text.span, what, word, "yes or no")
        return word == "yes"
