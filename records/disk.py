"""Files on disk: another's is read only if it is an ordinary one, one's own is written whole."""

from __future__ import annotations

import errno
import os
import stat
import sys
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO, Literal

PRIVATE = 0o600
"""Mode of a file that is the owner's alone."""
_READ = os.O_RDONLY | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0)
_READ |= getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0)
_WRITE = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)


def resolved(path: Path) -> Path:
    """Return where a path leads if it is a symbolic link; any other path as it is.

    What belongs beside a file, such as the journal of a write that was cut off, lies beside the
    file itself and not beside a link to it.
    """
    try:
        return Path(os.path.realpath(path)) if path.is_symlink() else path
    except (OSError, ValueError):
        return path


def open_ordinary(path: str | os.PathLike[str]) -> BinaryIO:
    """Return a file opened to read; a pipe or a device is neither opened nor waited for.

    Raises:
        OSError: If it can't be read, or is no ordinary file.
    """
    _check_ordinary(os.stat(path))
    handle = os.open(path, _READ)
    try:
        _check_ordinary(os.fstat(handle))  # another one may have been put there meanwhile
        return os.fdopen(handle, "rb")
    except BaseException:
        os.close(handle)
        raise


def read_ordinary(path: str | os.PathLike[str], most: int) -> bytes:
    """Return the bytes of a file.

    Args:
        path: Which.
        most: How many bytes it may have.
    Raises:
        OSError: If it can't be read, is no ordinary file, or is larger.
    """
    with open_ordinary(path) as file:
        data = file.read(most + 1)
    if len(data) > most:
        raise OSError(errno.EFBIG, f"it is larger than {most:,} bytes")
    return data


def write_whole(path: Path, data: bytes, *, mode: int | None = None, new: bool = False) -> None:
    """Write a file that is there whole, and on disk, or not at all.

    A link stays one, and what it leads to is written. A file that is replaced hands its owner on,
    and its mode too.

    Args:
        path: Where.
        data: What is to stand in it.
        mode: What it is to have; None: what it has, or what is usual for new files.
        new: Whether to refuse to write over anything.
    Raises:
        FileExistsError: If something is there and `new` is asked for.
        OSError: If it can't be written; what stood there before still does.
    """
    if new and os.path.lexists(path):
        raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path))
    path = Path(os.path.realpath(path))
    before = _stat(path)
    if before is not None:
        _check_ordinary(before)  # a device would be replaced by a file
    half = path.with_name(f".farboard-{os.urandom(6).hex()}")
    try:
        usual = 0o666 if mode is None else mode
        with os.fdopen(os.open(half, _WRITE, PRIVATE if before else usual), "wb") as file:
            file.write(data)
            file.flush()
            if before is not None:
                _hand_on(file.fileno(), before, mode)
            _sync(file.fileno())
        if new:
            _put_new(half, path)
        else:
            os.replace(half, path)
        _sync_folder(path.parent)
    finally:
        with suppress(OSError):
            half.unlink(missing_ok=True)


def data_folder() -> Path:
    """Return where this system keeps a person's data for Farboard; it need not be there yet.

    Where nobody's home is known, it is a folder for passing things, of this user alone.
    """
    return _own_folder("data")


def config_folder() -> Path:
    """Return where this system keeps a person's settings; likewise."""
    return _own_folder("config")


def state_folder() -> Path:
    """Return where this system keeps what a program remembers; likewise."""
    return _own_folder("state")


def _own_folder(kind: Literal["data", "config", "state"]) -> Path:
    import tempfile

    import platformdirs

    with suppress(RuntimeError):  # a later one says so where no home is known
        named = getattr(platformdirs, f"user_{kind}_path")
        folder: Path = named("farboard", appauthor=False)
        if folder.is_absolute():  # with an earlier one, “~” would be the name of a folder
            return folder
    user = os.getuid() if sys.platform != "win32" else "user"
    return Path(tempfile.gettempdir(), f"farboard-{user}")


def private_folder(folder: Path) -> None:
    """Make a folder, if it is missing, that nobody but its owner gets into.

    Raises:
        OSError: If it can't be made.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    if stat.S_IMODE(folder.stat().st_mode) & 0o077:
        folder.chmod(0o700)


def knows_locks(path: Path) -> bool:
    """Say whether a file can be locked where it lies; it must not be open here.

    Some shares answer every lock with an error, which is taken for somebody else's lock.
    """
    if sys.platform == "win32":
        return True
    import fcntl

    try:
        with open_ordinary(path) as file:
            fcntl.lockf(file, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except OSError as error:
        return error.errno in (errno.EAGAIN, errno.EACCES)
    return True


def mode_of(path: Path) -> int:
    """Return the mode of a file; that of a private one if it can't be had."""
    found = _stat(path)
    return PRIVATE if found is None else stat.S_IMODE(found.st_mode) & 0o666


def _check_ordinary(found: os.stat_result) -> None:
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if not stat.S_ISREG(found.st_mode):
        raise OSError(errno.EINVAL, "it is no ordinary file")


def _stat(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except FileNotFoundError:
        return None


def _hand_on(handle: int, before: os.stat_result, mode: int | None) -> None:
    if sys.platform == "win32":
        return
    with suppress(OSError):  # only the owner of the machine may give files to others
        os.fchown(handle, before.st_uid, before.st_gid)
    with suppress(OSError):  # some disks know no modes
        os.fchmod(handle, stat.S_IMODE(before.st_mode) if mode is None else mode)


def _put_new(half: Path, path: Path) -> None:
    try:
        os.link(half, path)  # unlike a renaming, this never replaces what came there meanwhile
    except FileExistsError:
        raise
    except OSError:  # not every disk has links
        if os.path.lexists(path):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(path)) from None
        os.replace(half, path)


def _sync(handle: int) -> None:
    if sys.platform == "darwin":
        import fcntl

        with suppress(OSError):  # there, a plain fsync stops in the drive's own memory
            fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
            return
    os.fsync(handle)


def _sync_folder(folder: Path) -> None:
    """Have the new name on disk too; not every system lets a folder be opened for that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
