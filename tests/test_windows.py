"""What Windows lacks: signals, POSIX locks, folders that open. The platform is faked here."""

from __future__ import annotations

import builtins
import os
import signal
import sys
from pathlib import Path

import pytest

from records import disk
from tui import stop_signals


def test_no_signal_is_asked_for_that_is_not_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.delattr(signal, "SIGHUP", raising=False)

    assert stop_signals._stops() == (signal.SIGINT, signal.SIGTERM)


def test_locks_are_known_without_fcntl(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    given = builtins.__import__

    def without(name: str, *rest: object, **more: object) -> object:
        if name == "fcntl":
            raise ImportError(name)
        return given(name, *rest, **more)

    (tmp_path / "a").write_bytes(b"x")
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(builtins, "__import__", without)

    assert disk.knows_locks(tmp_path / "a")


def test_a_folder_that_can_not_be_opened_does_not_stop_a_save(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = os.open

    def refused(path: object, *rest: object, **more: object) -> int:
        if Path(os.fspath(path)).is_dir():
            raise PermissionError(13, "Permission denied")
        return opened(path, *rest, **more)

    monkeypatch.setattr(os, "open", refused)
    disk.write_whole(tmp_path / "kept.json", b"{}")

    assert (tmp_path / "kept.json").read_bytes() == b"{}"
