"""What the list of commands offers, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from textual.screen import Screen

from records.habits import HABITS, Comma, DayOrder
from records.terms import Step as WalkStep
from tui.dialogs.commands import Command
from tui.steps.start import Start
from tui.steps.step import Step

if TYPE_CHECKING:
    from tui.steps.host import Host


def offered(app: Host, screen: Screen[object]) -> Iterator[Command]:
    """Yield the commands that make sense on a screen."""
    if isinstance(screen, Step):
        yield from _on_a_step(app, screen)
    elif isinstance(screen, Start):
        yield from screen.commands()
    if hasattr(screen, "action_help"):
        yield Command("Help", "This screen and its keys (F1)", screen.action_help)
    yield from _settings(app)
    if isinstance(screen, Step):
        yield Command("Close this record", "Back to the first screen", app.action_close_record)
    yield Command("Leave", "All accepted values are on disk (Ctrl+Q)", app.action_leave)


def _on_a_step(app: Host, screen: Step) -> Iterator[Command]:
    for name, words, act in screen.commands():
        yield Command(name, words, act)
    for number, step in enumerate(WalkStep, start=1):
        yield Command(
            f"Go to {step.value}", f"Step {number} of {len(WalkStep)}", partial(app.go, step)
        )
    yield Command("Undo", "Take the last change back (Ctrl+Z)", screen.action_undo)
    yield Command("Redo", "Make it again (Ctrl+Y)", screen.action_redo)
    yield Command("Working", "How the figures were calculated (F2)", screen.action_working)
    yield Command(
        "Picture", "The device's curve, the loop, the ring (Ctrl+G)", screen.action_picture
    )


def _settings(app: Host) -> Iterator[Command]:
    yield Command("Look", "Colours: dark, light, and others", app.own.choose_look)
    month = HABITS.dates is DayOrder.MONTH_FIRST
    yield Command(
        "Dates as figures",
        f"5/3/26 is {'3 May' if month else '5 March'} now; change it",
        app.own.choose_dates,
    )
    comma = {
        Comma.ASK: "is asked about",
        Comma.DECIMAL: "is 1.25",
        Comma.THOUSANDS: "is 1250",
    }
    yield Command(
        "Comma in figures", f"1,250 {comma[HABITS.comma]} now; change it", app.own.choose_comma
    )
    yield Command("Keys", "Set keys beside the usual ones: where, and which", app.own.show_keys)
