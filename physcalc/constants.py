"""The sheet's constants as the outermost layer of names.

Room 10, beside the engine.
"""

from __future__ import annotations

from .checking.scope import Datum, Layer, Quantity
from .exact import Real
from .language.names import Name, read_name
from .sheets import Sheet
from .units import to_si


def constants_layer(sheet: Sheet) -> Layer:
    """The sheet's constants as the outermost layer of names; read when they are first needed."""
    return Constants(sheet)


class Constants(dict[Name, Datum]):
    """A layer that makes a constant's datum when it is asked for: most papers use two or three of forty."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet
        self._keys = {name: key for key in sheet.constants if (name := read_name(key)) is not None}

    def __contains__(self, name: object) -> bool:
        return name in self._keys

    def __getitem__(self, name: Name) -> Datum:
        if not dict.__contains__(self, name):
            constant = self._sheet.constants[self._keys[name]]
            value = to_si(Real.of(constant.number.value), constant.unit)
            datum = Datum(name, Quantity(value, constant.unit, constant.number), "constant", "sheet")
            dict.__setitem__(self, name, datum)
        return dict.__getitem__(self, name)

    def __iter__(self):  # type: ignore[no-untyped-def]
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)
