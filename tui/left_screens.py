"""What a screen that has been left still wanted to do: nothing of it is done any more."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from textual.app import App, ScreenStackError
from textual.await_complete import AwaitComplete
from textual.css.query import NoMatches
from textual.dom import DOMNode
from textual.screen import Screen
from textual.timer import Timer, TimerCallback
from textual.worker import WorkerFailed

T = TypeVar("T")


if TYPE_CHECKING:
    _Screen = Screen
else:

    class _Screen(Generic[T]):
        """Beside a screen, not one itself: Textual takes the rules of the first base that is one.

        A dialog would lose those of `ModalScreen`, and stand in a corner with nothing behind it.
        """


class LeftAnyTime(_Screen[T], Generic[T]):
    """A screen that may be left by a key typed before it is painted, or is all there."""

    _dismissed = False

    @property
    def is_ready(self) -> bool:
        """Whether it can take keys; until then they wait."""
        return self.is_mounted

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Close with an answer: once, and only while it is the one in front.

        A second Enter may come before the first has closed it. It would answer twice, and close
        what stands behind.
        """
        if self._dismissed or not self.is_active:
            return AwaitComplete()
        self._dismissed = True
        return super().dismiss(result)

    def is_here(self) -> bool:
        """Say whether it is still one of the screens that are open."""
        return self in self.app.screen_stack

    def call_after_refresh(
        self, callback: Callable[..., object], *args: object, **kwargs: object
    ) -> bool:
        """Do something once the screen is painted, unless it has been left by then."""
        return super().call_after_refresh(self._if_here, callback, *args, **kwargs)

    def set_timer(self, delay: float, callback: TimerCallback | None = None, **more: Any) -> Timer:
        """Do something after a while, unless the screen has been left by then."""
        act = None if callback is None else partial(self._if_here, callback)
        return super().set_timer(delay, act, **more)

    def _if_here(self, callback: Callable[..., object], *args: object, **kwargs: object) -> object:
        return callback(*args, **kwargs) if self.is_here() else None


def came_too_late(app: App[Any], error: Exception) -> bool:
    """Say whether an error is only that a screen's widgets are gone, or not there yet, as it left.

    A key typed ahead can close a screen before it has its widgets: then it looks for them in vain.

    Args:
        app: The program.
        error: What was raised, while a message was handled.
    """
    if isinstance(error, ScreenStackError):
        return not app.screen_stack  # a key that came when the program had ended
    if isinstance(error, WorkerFailed) and isinstance(error.error, Exception):
        return came_too_late(app, error.error)
    return isinstance(error, NoMatches) and not _is_there(app, _where(error))


def _where(error: NoMatches) -> object:
    """Return the node in which something was looked for in vain."""
    last = error.__traceback__
    while last is not None and last.tb_next is not None:
        last = last.tb_next
    return last.tb_frame.f_locals.get("self") if last is not None else None


def _is_there(app: App[Any], node: object) -> bool:
    """Say whether a node belongs to an open screen that has its widgets."""
    while isinstance(node, DOMNode) and not isinstance(node, Screen):
        node = node.parent
    if not isinstance(node, Screen):
        return True  # whatever it is, it is no screen that was left
    return node in app.screen_stack and node.is_mounted and node.is_running
