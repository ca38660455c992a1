"""Makes a PDF of a document by an installed LibreOffice; Farboard has no layout of its own."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory

from records.disk import write_whole
from records.errors import CannotWrite, NotWritten

SECONDS = 180
"""It starts again each time, on a slow machine from a cold disk."""
_NAMES = ("soffice", "libreoffice")
_ELSEWHERE = (
    "/Applications/LibreOffice.app/Contents/MacOS/soffice",
    r"C:\Program Files\LibreOffice\program\soffice.exe",
)


def converter() -> str:
    """Return where LibreOffice is.

    Raises:
        CannotWrite: If there is none.
    """
    found = next(filter(None, map(shutil.which, (*_NAMES, *_ELSEWHERE))), None)
    if found is None:
        raise CannotWrite(
            "There is no LibreOffice here to make the PDF with. Install it; soffice must be found "
            "on the PATH. Or leave --pdf out and save the .docx as PDF in a word processor."
        )
    return found


def write_pdf(document: Path, out: Path, *, seconds: float = SECONDS) -> None:
    """Write a PDF of a document: all of it, or nothing.

    Args:
        document: A .docx file.
        out: Where to; a file of that name is replaced.
        seconds: How long LibreOffice may take.
    Raises:
        CannotWrite: If there is no LibreOffice, or it makes none.
        NotWritten: If the PDF can't be put there.
    """
    program = converter()
    with TemporaryDirectory(prefix="farboard-") as folder:
        # A name of our own: that of the document could look like an option or a web address.
        source = Path(folder, "schedule.docx")
        try:
            shutil.copyfile(document, source)
            _run(program, source, seconds)
            made = source.with_suffix(".pdf").read_bytes()
        except (OSError, subprocess.SubprocessError) as error:
            why = getattr(error, "strerror", None) or "it ended without a PDF"
            if isinstance(error, subprocess.TimeoutExpired):
                why = f"it took more than {seconds:g} s"
            raise CannotWrite(
                f"LibreOffice made no PDF of “{document.name}”: {why}. Open the .docx in it and "
                "save it as PDF there."
            ) from error
    try:
        write_whole(out, made)
    except OSError as error:
        raise NotWritten(f"“{out}” can’t be written: {error.strerror or error}.") from error


def _run(program: str, source: Path, seconds: float) -> None:
    profile = (source.parent / "profile").as_uri()  # one that is open elsewhere would refuse
    words = [
        program,
        f"-env:UserInstallation={profile}",
        "--headless",
        "--norestore",
        "--convert-to",
        "pdf:writer_pdf_Export",
        "--outdir",
        str(source.parent),
        str(source),
    ]
    with subprocess.Popen(
        words,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    ) as run:
        try:
            run.wait(seconds)
        except BaseException:
            _end(run)
            raise


def _end(run: subprocess.Popen[bytes]) -> None:
    """End LibreOffice with the process that it started itself."""
    with suppress(OSError):
        if sys.platform == "win32":
            run.kill()
        else:
            os.killpg(run.pid, signal.SIGKILL)
