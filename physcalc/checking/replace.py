"""A name in a tree replaced by another tree."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

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
    return put_each(node, {name: tree})


def put_each(node: t.Expr, trees: Mapping[Name, t.Expr]) -> t.Expr:
    """A tree with every occurrence of some names replaced by other trees, in brackets where they need them.

    What is put in is left as it is.
    """

    def put(part: t.Expr) -> t.Expr:
        match part:
            case t.Sym(name):
                tree = trees.get(name)
                if tree is None:
                    return part
                plain = isinstance(tree, t.Sym | t.Num | t.Pi | t.Call | t.Group | t.Abs | t.Put)
                return tree if plain else t.Group(tree)
            case t.Sum(terms, signs, span):
                return t.Sum(tuple(_as_term(put(x), x) for x in terms), signs, span)
            case t.Group(body, span):
                inner = put(body)
                return inner if isinstance(inner, t.Group) else t.Group(inner, span)
            case _:
                return t.rebuilt(part, put)

    return put(node)


def _as_term(put: t.Expr, before: t.Expr) -> t.Expr:
    """A product put in the place of a whole term needs no brackets."""
    if isinstance(before, t.Sym) and isinstance(put, t.Group) and isinstance(put.body, t.Product):
        return put.body
    return put
