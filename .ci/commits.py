"""Looks at the words of each commit: a subject that fits in one line, and a body that says why."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

SINCE = "546f45b2"
"""The last commit before this was looked at."""
LONGEST = 72


def commits() -> list[tuple[str, str, str]]:
    """Return hash, subject and body of each commit since then; none where git knows none."""
    git = ["git", "log", "--format=%h%x1f%s%x1f%b%x1e", f"{SINCE}..HEAD"]
    said = subprocess.run(git, capture_output=True, text=True, check=False)
    if said.returncode:
        print(f"Commits are not looked at: this clone does not reach back to {SINCE}.")
        return []
    parts = (each.strip("\n").split("\x1f") for each in said.stdout.split("\x1e") if each.strip())
    return [(name, subject, body) for name, subject, body in parts]


def faults(subject: str, body: str) -> Iterator[str]:
    """Yield what is wrong with the words of a commit."""
    if len(subject) > LONGEST:
        yield f"the subject has {len(subject)} characters; {LONGEST} is the most"
    if not subject[:1].isupper() or subject.endswith("."):
        yield "the subject is a sentence without a full stop: “Refuse a journal that …”"
    if not body.strip():
        yield "no body says why"


def main() -> int:
    """Print each fault; return how many commits have one."""
    bad = [
        (name, subject, found)
        for name, subject, body in commits()
        if (found := list(faults(subject, body)))
    ]
    for name, subject, found in bad:
        print(f"{name} {subject}: {'; '.join(found)}", file=sys.stderr)
    return min(len(bad), 1)


if __name__ == "__main__":
    sys.exit(main())
