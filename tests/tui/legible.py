"""What reaches the terminal: each character with its ink and its ground."""

from __future__ import annotations

from dataclasses import dataclass

from rich.cells import cell_len
from rich.color import Color, ColorSystem
from rich.console import Console
from textual.app import App
from textual.screen import ModalScreen

Triplet = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Cell:
    """One character on the screen."""

    column: int
    row: int
    text: str
    ink: Color
    ground: Color

    @property
    def contrast(self) -> float:
        """How far the ink stands out from its ground, 1 to 21."""
        return contrast(_triplet(self.ink), _triplet(self.ground))

    @property
    def is_drawn(self) -> bool:
        """Whether it is a line, a bar or dots of a picture, not a letter, a figure or a mark."""
        return any(first <= self.text <= last for first, last in _DRAWN)

    @property
    def contrast_of_16(self) -> float:
        """The same on a terminal with sixteen colours, as those of VGA text mode."""
        ink, ground = (
            each.downgrade(ColorSystem.STANDARD).number for each in (self.ink, self.ground)
        )
        assert ink is not None
        assert ground is not None
        return contrast(_VGA[ink], _VGA[ground])


_DRAWN = (("\u2500", "\u257f"), ("\u2580", "\u259f"), ("\u2800", "\u28ff"))
"""Unicode blocks: box drawing, block elements, braille patterns."""


def contrast(ink: Triplet, ground: Triplet) -> float:
    """Return the contrast ratio of two colours of the screen, 1 to 21.

    Source:
        WCAG 2.1, definitions of contrast ratio and of relative luminance (W3C Recommendation,
        5 June 2018), from memory; the threshold 0.04045 is that of sRGB, IEC 61966-2-1.
    """
    light, dark = sorted((_luminance(ink), _luminance(ground)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: Triplet) -> float:
    parts = [each / 255 for each in colour]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


_VGA: tuple[Triplet, ...] = (
    (0, 0, 0),
    (170, 0, 0),
    (0, 170, 0),
    (170, 85, 0),
    (0, 0, 170),
    (170, 0, 170),
    (0, 170, 170),
    (170, 170, 170),
    (85, 85, 85),
    (255, 85, 85),
    (85, 255, 85),
    (255, 255, 85),
    (85, 85, 255),
    (255, 85, 255),
    (85, 255, 255),
    (255, 255, 255),
)
"""The sixteen colours of VGA text mode."""


def _triplet(colour: Color) -> Triplet:
    red, green, blue = colour.get_truecolor()
    return red, green, blue


def pairs(app: App[None]) -> tuple[Cell, ...]:
    """Return one character for each pair of ink and ground in force, drawn or not.

    Blanks have no ink, and what lies behind a dialog is not in force.
    """
    screen = app.screen
    whole = screen.query_one("#dialog").region if isinstance(screen, ModalScreen) else screen.region
    found: dict[tuple[object, ...], Cell] = {}
    for row, strip in enumerate(screen._compositor.render_strips()):
        column = 0
        for part in strip:
            style = part.style
            for text in part.text:
                if not text.isspace() and whole.contains(column, row):
                    assert style is not None
                    assert style.color is not None, (column, row, text)
                    assert style.bgcolor is not None, (column, row, text)
                    both = (style.color, style.bgcolor)
                    cell = Cell(column, row, text, *(both[::-1] if style.reverse else both))
                    found.setdefault((cell.ink, cell.ground, cell.is_drawn), cell)
                column += cell_len(text)
    return tuple(found.values())


def sent(app: App[None]) -> str:
    """Return what a driver would write to a terminal with all colours for the whole screen."""
    update = app.screen._compositor.render_full_update()
    console = Console(color_system="truecolor", force_terminal=True, no_color=False)
    return update.render_segments(console)
