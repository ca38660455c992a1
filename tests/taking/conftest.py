"""A clock for the tests of taking readings."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from records.taking import desk
from tests.taking.locks import at_minute


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> dict[str, datetime]:
    """Let a test say what time it is; each look at the clock is a second later."""
    known = {"now": at_minute(120)}

    def present() -> datetime:
        known["now"] += timedelta(seconds=1)
        return known["now"]

    monkeypatch.setattr(desk, "present", present)
    return known
