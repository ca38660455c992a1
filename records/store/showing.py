"""Text of unknown origin, such as a file's name, made fit for one line of a screen."""

from __future__ import annotations

import unicodedata
from os import PathLike, fspath
from typing import Any


def shown(given: Any, longest: int = 60) -> str:
    """Return something a person gave as it can be shown on one line, harmless and not too long."""
    text = given if isinstance(given, str) else repr(given)
    text = "".join("�" if unicodedata.category(c)[0] in "CZ" and c != " " else c for c in text)
    return text if len(text) <= longest else text[: longest - 1] + "…"


def file_name(path: str | PathLike[str]) -> str:
    """Return a path as it can be shown: bytes that are no text, and controls, as `�`."""
    return shown(fspath(path), 500)
