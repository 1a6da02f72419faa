"""The parts of a Word file or a book, which are ZIP archives."""

from __future__ import annotations

import io
import zipfile


def unzipped(archive: bytes) -> dict[str, bytes]:
    """The parts of an archive by their names, in its order."""
    with zipfile.ZipFile(io.BytesIO(archive)) as read:
        return {name: read.read(name) for name in read.namelist()}


def zipped(parts: dict[str, bytes]) -> bytes:
    """An archive of parts; the same parts give the same bytes."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            # A fixed date: the same content gives the same file.
            entry = zipfile.ZipInfo(name, date_time=(1980, 1, 1, 0, 0, 0))
            # EPUB Open Container Format 3.3, 4.2: "mimetype" stands first and is stored as it is.
            # A picture is compressed already.
            plain = name == "mimetype" or name.endswith(".png")
            entry.compress_type = zipfile.ZIP_STORED if plain else zipfile.ZIP_DEFLATED
            archive.writestr(entry, content)
    return made.getvalue()
