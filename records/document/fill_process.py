"""Fills somebody's own template in a process of its own, with an end to its time and memory.

The tags of a template can loop or grow without end, which no sandbox inside a process stops.
Run as `python -m records.document.fill_process`: reads the request from standard input as JSON,
writes the answer to standard output as JSON.
"""

from __future__ import annotations

import base64
import json
import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path
from typing import Any

from records.document.filling import ENDLESS, filled
from records.errors import BadTemplate

SECONDS = 20
"""A schedule of 400 readings takes about one: this is for a slow machine."""
_BYTES = 1024**3


def filled_apart(
    template: bytes, context: dict[str, Any], made: datetime, *, seconds: float = SECONDS
) -> bytes:
    """Return what `filling.filled` returns, worked out in another process.

    Args:
        template: A .docx file with template tags.
        context: Plain texts, lists and mappings only.
        made: When the schedule is written.
        seconds: How long it may take.
    Raises:
        BadTemplate: As `filled`; also if the template takes too long or too much memory.
    """
    request = {
        "template": base64.b64encode(template).decode(),
        "context": context,
        "made": made.isoformat(),
    }
    # The same places to import from, but for the folder one happens to stand in.
    home = Path(__file__).resolve().parents[2]
    paths = os.pathsep.join((*(os.path.abspath(each) for each in sys.path if each), str(home)))
    try:
        done = subprocess.run(
            [sys.executable, "-P", "-m", "records.document.fill_process"],
            input=json.dumps(request).encode(),
            capture_output=True,
            timeout=seconds,
            env={**os.environ, "PYTHONPATH": paths},
            check=True,
        )
        answer: dict[str, str] = json.loads(done.stdout)
    except (subprocess.TimeoutExpired, subprocess.CalledProcessError, ValueError) as error:
        raise BadTemplate(ENDLESS) from error
    except OSError as error:
        raise BadTemplate(
            f"A template of your own is filled by a second Python, which can’t be started: "
            f"{error.strerror or error}. The template that comes with Farboard works without."
        ) from error
    if "bad" in answer:
        raise BadTemplate(answer["bad"])
    return base64.b64decode(answer["document"])


def _hold_memory() -> None:
    try:
        import resource
    except ImportError:  # not on every system; the time limit holds all the same
        return
    resource.setrlimit(resource.RLIMIT_AS, (_BYTES, _BYTES))


def _answer(request: dict[str, Any]) -> dict[str, str]:
    try:
        document = filled(
            base64.b64decode(request["template"]),
            request["context"],
            datetime.fromisoformat(request["made"]),
        )
    except BadTemplate as error:
        return {"bad": str(error)}
    return {"document": base64.b64encode(document).decode()}


if __name__ == "__main__":
    _hold_memory()
    json.dump(_answer(json.load(sys.stdin)), sys.stdout)
