"""What is said of a record file that is damaged or cut short: what is wrong, and the way out."""

from __future__ import annotations

import shlex
from os import PathLike

from records.errors import CannotOpen
from records.store.showing import file_name


class Damaged(CannotOpen):
    """A record file is not whole; what stands before the damage can be brought out of it."""

    def __init__(self, path: str | PathLike[str], why: str) -> None:
        """Say so.

        Args:
            path: The file, as the person knows it.
            why: What is wrong, after the name of the file and without the full stop.
        """
        name = file_name(path)
        self.bare = f"{name} {why}."
        """What is wrong, without the way out."""
        super().__init__(
            f"{self.bare} “farboard rescue {shlex.quote(name)} -o NEW.farboard” brings out what "
            "can still be read of it."
        )


def bare(error: CannotOpen) -> str:
    """Return what is wrong with a file without the way out, for who is on it already."""
    return error.bare if isinstance(error, Damaged) else str(error)
