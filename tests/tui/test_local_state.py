"""What is remembered beside records: its owner's alone, whole or not there, found by any way in."""

from __future__ import annotations

import stat
import subprocess
import sys
from pathlib import Path

from tui.local_state import Kept

ROOT = Path(__file__).parents[2]


def _modes(folder: Path) -> set[int]:
    return {stat.S_IMODE(each.stat().st_mode) for each in folder.iterdir()}


def test_drafts_are_their_owners_alone_also_where_an_earlier_farboard_left_them_open(
    tmp_path: Path,
) -> None:
    record, folder = tmp_path / "job.farboard", tmp_path / "data"
    kept = Kept(folder)
    kept.keep_drafts(record, {"/job/place": "old"})
    for each in folder.iterdir():
        each.chmod(0o644)
    folder.chmod(0o755)

    kept.keep_drafts(record, {"/job/place": "0.3"})
    kept.opened(record)

    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    assert _modes(folder) == {0o600}
    assert kept.drafts(record) == {"/job/place": "0.3"}


def test_a_draft_is_found_through_a_link_to_the_record(tmp_path: Path) -> None:
    record, link = tmp_path / "job.farboard", tmp_path / "link.farboard"
    record.touch()
    link.symlink_to(record)
    kept = Kept(tmp_path / "data")
    kept.keep_drafts(link, {"/job/place": "0.3"})
    assert kept.drafts(record) == kept.drafts(link) == {"/job/place": "0.3"}


def test_a_full_disk_leaves_the_last_draft_and_no_half_file(tmp_path: Path) -> None:
    """The system's own limit on the size of a file makes write() fail."""
    record, folder = tmp_path / "job.farboard", tmp_path / "data"
    Kept(folder).keep_drafts(record, {"/job/place": "before"})
    code = f"""
import resource, signal
from pathlib import Path
from tui.local_state import Kept
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, 10_000))
Kept(Path({str(folder)!r})).keep_drafts(Path({str(record)!r}), {{"/job/place": "x" * 20_000}})
"""
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)
    assert len(list(folder.iterdir())) == 1
    assert Kept(folder).drafts(record) == {"/job/place": "before"}
