"""The answers that a choice offers, narrowed by what is typed, with one of them picked."""

from __future__ import annotations

from records.entering.field import Field, Option, Several
from records.entering.typed_field import offered

_STEPS = {"up": -1, "shift+tab": -1, "down": 1, "pageup": -5, "pagedown": 5}


class AnswerList:
    """Closed, or open on the answers of a field that fit a text."""

    def __init__(self) -> None:
        self.options: tuple[Option, ...] | None = None
        """What is offered; None while it is closed."""
        self.at = 0
        """Which of them is picked."""
        self._for = ""
        self._chosen = False

    @property
    def is_open(self) -> bool:
        """Whether the answers are shown."""
        return self.options is not None

    @property
    def picked(self) -> Option | None:
        """The answer that Enter takes; None if there is none."""
        return self.options[self.at] if self.options else None

    @property
    def unclear(self) -> tuple[Option, ...]:
        """The several things that shorthand could mean, while none of them was moved to."""
        meant = tuple(each for each in self.options or () if isinstance(each.value, Several))
        return meant if len(meant) > 1 and not self._chosen else ()

    def asked(self) -> None:
        """Take it that the person was asked which is meant: Enter takes the one picked."""
        self._chosen = True

    def open(self, field: Field, typed: str) -> None:
        """Offer what fits a text, standing on the value that the field has."""
        self.options, self._for, self._chosen = offered(field, typed), typed, False
        values = [each.value for each in self.options]
        self.at = values.index(field.value) if field.value in values else 0

    def narrow(self, field: Field, typed: str) -> None:
        """Offer what fits the text as it now stands: word of a change may come after Enter."""
        if self.is_open and self._for != typed:
            self.options, self._for, self._chosen = offered(field, typed), typed, False
            self.at = 0

    def move(self, key: str) -> None:
        """Pick another answer with a key that moves."""
        self._chosen = True
        self.at = min(max(self.at + _STEPS[key], 0), max(len(self.options or ()) - 1, 0))

    def close(self) -> None:
        """Offer nothing more."""
        self.options = None
