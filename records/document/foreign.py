"""Opens a document that somebody else may have made, and answers whatever is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from records.disk import open_ordinary
from records.errors import CannotOpen


@contextmanager
def foreign(path: Path) -> Iterator[IO[bytes]]:
    """Open a document to read it; it is not written to.

    Raises:
        CannotOpen: If it is no ordinary file, or reading it fails in any way.
    """
    try:
        with open_ordinary(path) as file:
            yield file
    except FileNotFoundError:
        raise CannotOpen(f"There is no document “{path}”.") from None
    except IsADirectoryError:
        raise CannotOpen(f"“{path}” is a folder: name the document in it.") from None
    except OSError as error:
        raise CannotOpen(f"“{path}” can’t be read: {error.strerror or error}.") from None
    except CannotOpen:
        raise
    except Exception as error:  # whatever a stranger's file does to zip and XML readers
        raise CannotOpen(
            f"“{path.name}” can't be read as a .docx document. "
            "From another kind of file, type the fingerprint at the foot of its pages."
        ) from error
