"""Which screen shows a step."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from records.terms import Step as WalkStep

if TYPE_CHECKING:
    from tui.steps.start import Start
    from tui.steps.step import Step


def screen_of(step: WalkStep | None) -> type[Step] | type[Start]:
    """Return the screen of a step, or the start if there is none; its module is loaded only now."""
    if step is None:
        from tui.steps.start import Start

        return Start
    from tui.steps.step import Step

    module = import_module(f"tui.steps.{step.name.lower()}")
    for each in vars(module).values():
        if isinstance(each, type) and issubclass(each, Step) and each.__module__ == module.__name__:
            return each
    raise LookupError(f"{module.__name__} has no step in it.")


def load_ahead() -> None:
    """Load what opens, shows and judges a record, while a person looks at the start screen.

    A record that is chosen there then stands after 50 ms where it was 82, and how its steps stand
    after 120 ms where it was 200 (tests/bench/first_paint).
    """
    for each in (
        "tui.opening",
        "tui.steps.job",
        "records.entering.following",
        "records.judgement.review",
    ):
        import_module(each)
