"""What the command palette offers: our own commands, and no others."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING

from textual.app import SystemCommand
from textual.screen import Screen

from records.terms import Step as WalkStep
from tui.steps.step import Step

if TYPE_CHECKING:
    from tui.steps.host import Host


def offered(app: Host, screen: Screen[object]) -> Iterable[SystemCommand]:
    """Yield the commands that make sense on a screen."""
    if isinstance(screen, Step):
        yield from _on_a_step(app, screen)
    if hasattr(screen, "action_help"):
        yield SystemCommand("Help", "This screen and its keys (F1)", screen.action_help)
    yield SystemCommand(
        "Light or dark", "Change the look; it is remembered", app.action_toggle_look
    )
    yield SystemCommand("Leave", "All accepted values are on disk (Ctrl+Q)", app.action_leave)


def _on_a_step(app: Host, screen: Step) -> Iterable[SystemCommand]:
    for step in WalkStep:
        yield SystemCommand(f"Go to {step.value}", "A step of the walk", partial(app.go, step))
    for name, words, act in screen.commands():
        yield SystemCommand(name, words, act)
    yield SystemCommand("Undo", "Take the last change back (Ctrl+Z)", screen.action_undo)
    yield SystemCommand("Redo", "Make it again (Ctrl+Y)", screen.action_redo)
    yield SystemCommand("Working", "How the figures were calculated (F2)", screen.action_working)
    yield SystemCommand(
        "Picture", "The device's curve, the loop, the ring (Ctrl+G)", screen.action_picture
    )
    yield SystemCommand("Close this record", "Back to the start screen", app.action_close_record)
