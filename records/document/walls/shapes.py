"""What a drawing is made of: lines, shapes and words, in millimetres of paper from the top left."""

from __future__ import annotations

from dataclasses import dataclass, field

BLACK, GREY, PALE, FAINT = "#000000", "#6e6e6e", "#bebebe", "#ececec"

Spot = tuple[float, float]
"""mm from the left and from the top of the page."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Spot
    end: Spot
    kind: str
    """What it stands for: cable, dimension, stud …"""
    name: str = ""
    """Of what it shows, such as the id of a leg."""
    thick: float = 0.2
    dash: tuple[float, ...] = ()
    ink: str = BLACK


@dataclass(frozen=True, slots=True)
class Shape:
    """A closed shape by its corners."""

    corners: tuple[Spot, ...]
    kind: str
    name: str = ""
    thick: float = 0.2
    dash: tuple[float, ...] = ()
    ink: str | None = BLACK
    fill: str | None = None


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    centre: Spot
    radius: float
    kind: str
    name: str = ""
    thick: float = 0.2
    fill: str | None = None


@dataclass(frozen=True, slots=True)
class Words:
    """A line of words; `at` is the middle of their height."""

    at: Spot
    text: str
    size: float = 2.6
    anchor: str = "start"
    """start, middle or end, as SVG names it."""
    bold: bool = False
    ground: bool = False
    """Whether to clear what lies behind."""


Part = Line | Shape | Ring | Words


@dataclass(slots=True)
class Page:
    """A page and all that is on it, what is drawn later over what is drawn before."""

    width: float = 297.0
    height: float = 210.0
    title: str = ""
    parts: list[Part] = field(default_factory=list)

    def add(self, *parts: Part) -> None:
        """Put parts on the page."""
        self.parts.extend(parts)


def rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Spot, ...]:
    """Return the corners of a box on paper."""
    return (left, top), (right, top), (right, bottom), (left, bottom)


def wide(text: str, size: float) -> float:
    """Return about how wide words of a size are [mm]: a little more than most letters take."""
    return 0.56 * size * len(text)
