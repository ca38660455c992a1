"""When the wizard has nothing left to do: all keys taken, all painted, no thread at work.

Textual's `Pilot.pause` sleeps until the process seems idle, 60 ms for a key: most of the time that
driving the wizard took, and on a busy machine it came back too early. Here it is looked at instead.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Iterator

from textual.message_pump import MessagePump

from tui.app import FarboardApp

_LONG = 60.0
"""s after which something must be wrong."""
_SHORT = 0.4
"""s: what happens once, this long after a key, belongs to the key (a verdict on half a value)."""
_LOOK = 0.002
"""s between two looks at what a clock or a thread has to bring."""


async def rest(app: FarboardApp, *, timers: bool = False) -> None:
    """Wait until nothing is left to be done or painted.

    Args:
        app: The wizard, running.
        timers: Whether to wait for what happens a short while after a key, too.
    Raises:
        AssertionError: If it doesn't come to rest.
    """
    loop, end = asyncio.get_running_loop(), time.monotonic() + _LONG
    while time.monotonic() < end:
        await asyncio.sleep(0)
        if app._exception is not None or not app._running:
            return
        if loop._ready:  # type: ignore[attr-defined]
            continue
        if _is_elsewhere(app) or (timers and any(map(_soon, _pumps(app)))):
            await asyncio.sleep(_LOOK)
        elif _is_unpainted(app):
            app.screen._on_timer_update()
        else:
            return
    raise AssertionError("The wizard comes to no rest.")


def _is_elsewhere(app: FarboardApp) -> bool:
    """Whether a thread works, something moves, or keys wait for a dialog that is opening."""
    threads = any(each._thread_worker and not each.is_finished for each in app.workers)
    return threads or app.keys_ahead._waiting or bool(app.animator._animations)


def _is_unpainted(app: FarboardApp) -> bool:
    screen = app.screen
    return not app._batch_count and bool(
        screen._layout_required
        or screen._scroll_required
        or screen._repaint_required
        or screen._recompose_required
        or screen._dirty_widgets
        or screen._callbacks
    )


def _pumps(app: FarboardApp) -> Iterator[MessagePump]:
    yield app
    yield from app.screen.walk_children(with_self=True)


def _soon(pump: MessagePump) -> bool:
    """Whether something is to happen once, after a short while."""
    return any(
        each._repeat == 0 and each._interval <= _SHORT and each._task and not each._task.done()
        for each in pump._timers
    )
