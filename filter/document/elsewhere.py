"""What other questions and blocks found, by id: one store, of which each scope sees what was there before it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from physcalc.checking.scope import Layer


class Elsewhere:
    """Grows as a document is worked out. A copy for each scope would grow with the square of the document."""

    def __init__(self) -> None:
        self._found: dict[str, tuple[int, Layer]] = {}

    def __setitem__(self, identifier: str, results: Layer) -> None:
        place = self._found[identifier][0] if identifier in self._found else len(self._found)
        self._found[identifier] = place, results

    def until_now(self) -> Mapping[str, Layer]:
        """What has been found so far, and nothing that is found later."""
        return _Sofar(self._found, len(self._found))


class _Sofar(Mapping[str, Layer]):
    def __init__(self, found: Mapping[str, tuple[int, Layer]], count: int) -> None:
        self._found = found
        self._count = count

    def __getitem__(self, identifier: str) -> Layer:
        place, results = self._found[identifier]
        if place >= self._count:
            raise KeyError(identifier)
        return results

    def __iter__(self) -> Iterator[str]:
        return islice(self._found, self._count)

    def __len__(self) -> int:
        return self._count
