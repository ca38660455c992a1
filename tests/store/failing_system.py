"""Makes calls of this process to the system fail from now on, as on a failing or full disk.

By a seccomp filter of Linux (kernel documentation, "Seccomp BPF"), which answers the named calls
with an error without carrying them out; it can't be taken off again, so run this in a child.
"""

from __future__ import annotations

import ctypes
import errno
import platform
import struct
import sys
from pathlib import Path

from records.errors import CannotWrite
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.store.conftest import reading

_NUMBERS = {
    "x86_64": {
        "fsync": 74,
        "fdatasync": 75,
        "pwrite64": 18,
        "fcntl": 72,
        "unlink": 87,
        "unlinkat": 263,
    },
    "aarch64": {"fsync": 82, "fdatasync": 83, "pwrite64": 68, "fcntl": 25, "unlinkat": 35},
}
_LOAD, _EQUAL, _RETURN = 0x20, 0x15, 0x06
_ERROR, _ALLOW = 0x00050000, 0x7FFF0000
_NO_NEW_PRIVILEGES, _SECCOMP, _FILTER = 38, 22, 2


class _Program(ctypes.Structure):
    _fields_ = (("length", ctypes.c_ushort), ("filter", ctypes.c_void_p))


def fail(calls: list[str], error: int) -> None:
    """Let system calls fail from now on.

    Raises:
        OSError: If the system takes no such filter.
    """
    numbers = _NUMBERS[platform.machine()]
    lines = [(_LOAD, 0, 0, 0)]
    for call in calls:
        if call in numbers:
            lines += [(_EQUAL, 0, 1, numbers[call]), (_RETURN, 0, 0, _ERROR | error)]
    lines.append((_RETURN, 0, 0, _ALLOW))
    code = ctypes.create_string_buffer(b"".join(struct.pack("HBBI", *line) for line in lines))
    program = _Program(len(lines), ctypes.cast(code, ctypes.c_void_p))
    system = ctypes.CDLL(None, use_errno=True)
    if system.prctl(_NO_NEW_PRIVILEGES, 1, 0, 0, 0) or system.prctl(
        _SECCOMP, _FILTER, ctypes.byref(program)
    ):
        raise OSError(ctypes.get_errno(), "no filter")


def main(path: Path, error: str, calls: list[str]) -> None:
    """Accept some values, let calls fail, try two more; say what was accepted and what was not."""
    with RecordFile.open(path) as file:
        for number in range(1, 6):
            file.change(append("/readings", reading(number)))
        print("accepted", len(file.record.readings), flush=True)
        fail(calls, getattr(errno, error))
        for word in ("first", "second"):
            try:
                file.change(put("/job/place", word))
                print("accepted", word, flush=True)
            except CannotWrite as refused:
                print("refused", str(refused).replace("\n", " "), flush=True)
        print("record", file.record.job.place or "-", len(file.record.readings), flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], sys.argv[3:])
