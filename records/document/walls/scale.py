"""How a surface is put on paper: its scale, and where its corner and its floor are."""

from __future__ import annotations

from dataclasses import dataclass

from records.document.walls.shapes import Spot

_SCALES = (5, 10, 20, 25, 50, 75, 100, 200, 250, 500)
"""1 to so many; the largest drawing that fits is taken."""


@dataclass(frozen=True, slots=True)
class Paper:
    """How a drawing is laid out on its page [mm]."""

    width: float
    height: float
    room: tuple[float, float, float, float]
    """Left, top, right, bottom of the surface itself."""
    bar: Spot
    """Where the scale bar begins."""
    legend: Spot
    """Where the legend begins."""
    column: float
    """Width of a column of the legend."""
    titled: bool = True
    """Whether title and caution stand on the page itself."""


A4 = Paper(297, 210, (32.0, 26.0, 285.0, 140.0), (32.0, 172.0), (32.0, 180.0), 68.0)
CUT = Paper(297, 210, (32.0, 22.0, 285.0, 88.0), (215.0, 118.0), (32.0, 118.0), 60.0)
"""For the upper half of a cut-out sheet; its holes are below."""
FIGURE = Paper(172, 93, (24.0, 3.0, 168.0, 57.0), (24.0, 76.0), (24.0, 80.0), 49.0, False)
"""For a page of the schedule, which has its own title and words."""


@dataclass(frozen=True, slots=True)
class View:
    """A surface on a page."""

    width: float
    """Of the surface [mm]."""
    left: float
    """Height at its corner [mm]."""
    right: float
    """Height at its other end [mm]."""
    scale: int
    """1 to so many."""
    corner: Spot
    """Where the corner at floor level is on the page [mm]."""

    def at(self, along: float, up: float) -> Spot:
        """Return where a place on the surface is on the page [mm]."""
        return self.corner[0] + along / self.scale, self.corner[1] - up / self.scale

    def box(self, left: float, bottom: float, right: float, top: float) -> tuple[Spot, ...]:
        """Return the corners of a rectangle on the surface, on the page."""
        return (
            self.at(left, top),
            self.at(right, top),
            self.at(right, bottom),
            self.at(left, bottom),
        )

    @property
    def outline(self) -> tuple[Spot, ...]:
        """Its corners on the page."""
        return (
            self.at(0, 0),
            self.at(0, self.left),
            self.at(self.width, self.right),
            self.at(self.width, 0),
        )


def view(width: float, left: float, right: float, room: tuple[float, float, float, float]) -> View:
    """Return a surface at the largest usual scale at which it fits.

    Args:
        width: Of the surface [mm].
        left: Height at its corner [mm].
        right: Height at its other end [mm].
        room: Left, top, right, bottom on the page [mm].
    """
    high = max(left, right)
    across, down = room[2] - room[0], room[3] - room[1]
    fits = (each for each in _SCALES if width / each <= across and high / each <= down)
    scale = next(fits, _SCALES[-1])
    x = room[0] + (across - width / scale) / 2
    return View(width, left, right, scale, (x, room[3]))
