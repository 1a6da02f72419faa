"""A name in a tree replaced by another tree."""

from __future__ import annotations

from collections.abc import Sequence

from ..language import tree as t
from ..language.names import Name


def put_all(node: t.Expr, replaced: Sequence[tuple[Name, t.Expr]]) -> t.Expr:
    """A tree with several names replaced at once: what is put in for one of them is not replaced again.

    So `R_1 = R_2, R_2 = R_3` moves both names on by one.
    """
    # No name that can be typed has a base of a blank and a number.
    for i, (name, _) in enumerate(replaced):
        node = put_in(node, name, t.Sym(Name(f" {i}")))
    for i, (_, tree) in enumerate(replaced):
        node = put_in(node, Name(f" {i}"), tree)
    return node


def put_in(node: t.Expr, name: Name, tree: t.Expr) -> t.Expr:
    """A tree with every occurrence of a name replaced by another tree, in brackets where it needs them."""
    match node:
        case t.Sym(found):
            if found != name:
                return node
            return (
                tree
                if isinstance(tree, t.Sym | t.Num | t.Pi | t.Call | t.Group | t.Abs | t.Put)
                else t.Group(tree)
            )
        case t.Sum(terms, signs, span):
            return t.Sum(tuple(_as_term(put_in(x, name, tree), x) for x in terms), signs, span)
        case t.Group(body, span):
            inner = put_in(body, name, tree)
            return inner if isinstance(inner, t.Group) else t.Group(inner, span)
        case _:
            return t.rebuilt(node, lambda part: put_in(part, name, tree))


def _as_term(put: t.Expr, before: t.Expr) -> t.Expr:
    """A product put in the place of a whole term needs no brackets."""
    if isinstance(before, t.Sym) and isinstance(put, t.Group) and isinstance(put.body, t.Product):
        return put.body
    return put
