"""When the wizard has nothing left to do: all keys taken, all painted, no thread at work.

Textual's `Pilot.pause` sleeps until the process seems idle, 60 ms for a key: most of the time that
driving the wizard took, and on a busy machine it came back too early. Here it is looked at instead.
What is to happen a short while after a key happens at once: nobody waits for a clock. And the
screen is painted once it comes to rest, not several times on the way there.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Iterable
from weakref import WeakSet

from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen
from textual.timer import Timer

_LONG = 60.0
"""s after which something must be wrong."""
_SHORT = 0.4
"""s: what happens once, this long after a key, belongs to the key (a verdict on half a value)."""
_LOOKS = 40
"""Looks for what keys wait for, after which nothing brings it: then the wizard is at rest."""
_LOOK = 0.002
"""s between two looks at what a thread or something that moves has to bring."""


async def rest(app: App[None], *, timers: bool = False) -> None:
    """Wait until nothing is left to be done or painted.

    Args:
        app: The wizard, running.
        timers: Whether what happens a short while after a key is to happen too.
    Raises:
        AssertionError: If it doesn't come to rest.
    """
    loop, end, looks = asyncio.get_running_loop(), time.monotonic() + _LONG, 0
    while time.monotonic() < end:
        await asyncio.sleep(0)
        if app._exception is not None or not app._running:
            return
        if loop._ready:  # type: ignore[attr-defined]
            continue
        if _is_elsewhere(app):
            await asyncio.sleep(_LOOK)
        elif not (_keys_wait(app) and looks > _LOOKS) and _goes_off(_due(app, timers=timers)):
            looks += _keys_wait(app)
        elif _is_unpainted(app):
            app.screen._on_timer_update()
        elif app in _to_paint and not app._batch_count:
            _to_paint.discard(app)
            _paint(app.screen)
        else:
            return
    raise AssertionError("The wizard comes to no rest.")


_at_rest: WeakSet[App[None]] = WeakSet()
_to_paint: WeakSet[App[None]] = WeakSet()
_paint, _call_back = Screen._compositor_refresh, Screen._invoke_and_clear_callbacks


def _paint_later(screen: Screen[object]) -> None:
    """Paint a screen, or leave that to `rest`: what has to be painted is noted by now."""
    app = screen.app
    if app in _at_rest and screen is app.screen:
        screen._dirty_widgets.clear()
        _to_paint.add(app)
    else:
        _paint(screen)


async def _paint_first(screen: Screen[object]) -> None:
    """Do what waits for the paint, after it."""
    if screen._callbacks and screen.app in _to_paint:
        _to_paint.discard(screen.app)
        _paint(screen.app.screen)
    await _call_back(screen)


Screen._compositor_refresh = _paint_later  # type: ignore[method-assign]
Screen._invoke_and_clear_callbacks = _paint_first  # type: ignore[method-assign]


def at_rest(pilot: Pilot[None]) -> Pilot[None]:
    """Let a pilot wait for rest, where it would sleep: after a click, a key, another size."""
    _at_rest.add(pilot.app)

    async def pause(_: float | None = None) -> None:
        await rest(pilot.app)

    pilot.pause = pause  # type: ignore[method-assign]
    return pilot


def _is_elsewhere(app: App[None]) -> bool:
    """Whether a thread works or something moves."""
    threads = any(each._thread_worker and not each.is_finished for each in app.workers)
    return threads or bool(app.animator._animations)


def _is_unpainted(app: App[None]) -> bool:
    screen = app.screen
    return not app._batch_count and bool(
        screen._layout_required
        or screen._scroll_required
        or screen._repaint_required
        or screen._recompose_required
        or screen._dirty_widgets
        or screen._callbacks
    )


def _keys_wait(app: App[None]) -> bool:
    """Whether keys wait for a dialog that is opening, or a step that shows nothing yet."""
    ahead = getattr(app, "keys_ahead", None)
    return ahead is not None and ahead._waiting


def _due(app: App[None], *, timers: bool) -> Iterable[Timer]:
    """Return the clocks that stand between now and rest."""
    if timers:
        pumps = (app, *app.screen.walk_children(with_self=True))
        return [each for pump in pumps for each in pump._timers if _is_soon(each)]
    return [each for each in app._timers if _is_soon(each)] if _keys_wait(app) else ()


def _is_soon(timer: Timer) -> bool:
    """Whether something is to happen once, after a short while."""
    is_short = timer._repeat == 0 and timer._interval <= _SHORT
    return bool(is_short and timer._task and not timer._task.done())


def _goes_off(timers: Iterable[Timer]) -> bool:
    """Let the one of some clocks that is due first go off; False if there is none."""
    waits = {id(each._task._fut_waiter) for each in timers if each._task}  # type: ignore[attr-defined]
    loop = asyncio.get_running_loop()
    asleep = [each for each in loop._scheduled if each._args and id(each._args[0]) in waits]  # type: ignore[attr-defined]
    if not asleep:
        return False
    first = min(asleep, key=lambda each: each.when())
    first._run()
    first.cancel()
    return True
