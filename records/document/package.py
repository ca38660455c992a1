"""A .docx file is a zip of parts: packed so that the same parts give the same bytes."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import MappingProxyType
from typing import Any

TEMPLATE = Path(__file__).with_name("schedule.docx")
"""The template that comes with Farboard, also in an installed package."""

_EPOCH = (1980, 1, 1, 0, 0, 0)
"""The earliest time that a zip can carry: when it was packed says nothing about the record."""
_UNIX = 3


def packed(parts: Mapping[str, bytes]) -> bytes:
    """Return the zip of named parts: the list of content types first, then by name."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in sorted(parts, key=lambda each: (each != "[Content_Types].xml", each)):
            entry = zipfile.ZipInfo(name, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = _UNIX
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, parts[name])
    return out.getvalue()


@contextmanager
def timeless() -> Iterator[None]:
    """Have python-docx pack without asking the clock: one set before 1980 would end in an error."""
    from docx.opc import phys_pkg

    module: Any = phys_pkg
    before, module.ZipFile = module.ZipFile, _Timeless
    try:
        yield
    finally:
        module.ZipFile = before


class _Timeless(zipfile.ZipFile):
    def writestr(self, zinfo_or_arcname: Any, *more: Any, **named: Any) -> None:
        if isinstance(zinfo_or_arcname, str):
            entry = zipfile.ZipInfo(zinfo_or_arcname, _EPOCH)
            entry.compress_type = zipfile.ZIP_STORED  # it is packed once more, by `repacked`
            zinfo_or_arcname = entry
        super().writestr(zinfo_or_arcname, *more, **named)


def repacked(document: bytes, instead: Mapping[str, bytes] = MappingProxyType({})) -> bytes:
    """Return the same .docx file without the times at which its parts were packed.

    Args:
        document: The file.
        instead: Parts that come in the place of those of the same name.
    """
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        return packed({name: archive.read(name) for name in archive.namelist()} | dict(instead))
