"""What Farboard remembers on this computer beside records: recent ones, drafts, settings.

All of it is a convenience: where the folder can't be read or written, work goes on without it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from records.disk import (
    PRIVATE,
    data_folder,
    private_folder,
    read_ordinary,
    resolved,
    state_folder,
    write_whole,
)
from tui.settings import NAME, settings_path

_MOST_RECENT = 9
_LARGEST = 1_000_000


class Kept:
    """The folders of what is remembered."""

    def __init__(self, folder: Path | None = None) -> None:
        """Point at one folder for all; None: where this system keeps data, state and settings."""
        self.folder = state_folder() if folder is None else folder
        """Drafts, crash reports, and which records were opened."""
        self.data = data_folder() if folder is None else folder
        """Copies of records; an earlier Farboard kept drafts there too."""
        self.settings = settings_path() if folder is None else folder / NAME

    def recent(self) -> list[Path]:
        """Return the records opened last, the latest first, as far as they still exist."""
        names = self._read("recent.json").get("paths")
        paths = (
            [Path(each) for each in names if isinstance(each, str)]
            if isinstance(names, list)
            else []
        )
        return [each for each in paths[:_MOST_RECENT] if _is_file(each)]

    def opened(self, path: Path) -> None:
        """Remember that a record was opened."""
        path = path.absolute()
        others = [str(each) for each in self.recent() if each != path]
        self._write("recent.json", {"paths": [str(path), *others][:_MOST_RECENT]})

    def drafts(self, path: Path) -> dict[str, str]:
        """Return what was typed in a record and not accepted when it was left."""
        drafts = self._read(_draft_name(resolved(path))).get("drafts")
        if not isinstance(drafts, dict):
            return {}
        return {
            key: text
            for key, text in drafts.items()
            if isinstance(key, str) and isinstance(text, str)
        }

    def keep_drafts(self, path: Path, drafts: Mapping[str, str]) -> None:
        """Remember drafts of a record, or forget them if there are none."""
        path = resolved(path)
        if drafts:
            said = {"record": str(path.absolute()), "drafts": dict(drafts)}
            self._write(_draft_name(path), said)
        else:
            for folder in {self.folder, self.data}:
                _forget(folder / _draft_name(path))

    def _read(self, name: str) -> dict[str, Any]:
        for folder in (self.folder, self.data):
            try:
                said = json.loads(read_ordinary(folder / name, _LARGEST))
            except FileNotFoundError:
                continue
            except (OSError, ValueError, RecursionError):
                return {}
            return said if isinstance(said, dict) else {}
        return {}

    def _write(self, name: str, said: Mapping[str, Any]) -> None:
        try:
            private_folder(self.folder)
            write_whole(self.folder / name, json.dumps(said).encode(), mode=PRIVATE)
        except (OSError, ValueError):
            return  # a convenience less; the record itself does not depend on it


def _draft_name(path: Path) -> str:
    from hashlib import sha256  # not before a record is opened: the first screen comes sooner

    return f"draft-{sha256(os.fsencode(path.absolute())).hexdigest()[:16]}.json"


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def _forget(path: Path) -> None:
    try:
        path.unlink(missing_ok=True)
    except OSError:
        return  # it stays, and is offered once more
