"""Pictures of one part of the installation: its device's curve, its loop, its ring."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from enum import StrEnum
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from records.expected.pictures.curve import time_current
from records.expected.pictures.loop import loop_bars
from records.expected.pictures.ring import ring_picture
from records.expected.results import NotWorkedOut
from records.judgement.doubtful_readings import doubted, ring_patterns
from records.model.reading import Place, Quantity, place_of
from records.model.slots import title
from records.session import Session
from records.terms import Form, Part
from tui.dialogs.dialog import Dialog
from tui.look import style
from tui.widgets.canvas import Drawn, Painter, plain_text
from tui.widgets.curve import curve_words, draw_curve
from tui.widgets.loop_bar import draw_loop
from tui.widgets.ring_curve import draw_ring, ring_words

_CROSSED = (Quantity.CROSS_LN, Quantity.CROSS_LE, Quantity.R1, Quantity.RN, Quantity.R2)


class Sort(StrEnum):
    """The pictures there are."""

    CURVE = "curve"
    LOOP = "loop"
    RING = "ring"


class Picture(Dialog[None]):
    """Shows one picture at a time; the arrows go to the others and to other circuits."""

    KEYS_LINE = "← → picture · ↑ ↓ circuit · a text · Esc · F1"
    HELP = (
        "Curve: how fast the device switches off, with both fault currents of the circuit on it. "
        "Loop: which part of Zs comes from where, against its limit. Ring: what each socket "
        "should show with the ends cross-connected.\n\n"
        "“a” draws with plain letters, for terminals that can't show dots."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+g,enter,q", "close", show=False),
        Binding("right,tab", "turn(1)", show=False),
        Binding("left,shift+tab", "turn(-1)", show=False),
        Binding("down,pagedown", "walk(1)", show=False),
        Binding("up,pageup", "walk(-1)", show=False),
        Binding("a", "plain", show=False),
    ]

    def __init__(self, session: Session, place: Place | None, quantity: Quantity | None) -> None:
        """Prepare the pictures.

        Args:
            session: The opened record.
            place: What to begin with; anything but a circuit begins with the feed.
            quantity: What is measured there now: a reading of a ring begins with the ring.
        """
        super().__init__("")
        self._session = session
        circuits = [place_of(Part.CIRCUIT, each.id) for each in session.record.circuits]
        self._places: Sequence[Place] = [place_of(Part.FEED), *circuits]
        here = place_of(Part.CIRCUIT, place.circuit) if place and place.circuit else None
        self._at = self._places.index(here) if here in self._places else 0
        self._sort = Sort.RING if quantity in _CROSSED and self._is_ring else Sort.CURVE

    def compose_inside(self) -> ComposeResult:
        """Compose the picture."""
        yield Drawn(id="picture")

    def on_mount(self) -> None:
        """Show the first picture."""
        self._show()

    @property
    def place(self) -> Place:
        """What the picture is of."""
        return self._places[self._at]

    @property
    def sort(self) -> Sort:
        """Which picture is shown: a circuit that is no ring has none of a ring."""
        return self._sort if self._sort in self._sorts else Sort.CURVE

    def action_turn(self, by: int) -> None:
        """Show another picture of the same part."""
        sorts = self._sorts
        self._sort = sorts[(sorts.index(self.sort) + by) % len(sorts)]
        self._show()

    def action_walk(self, by: int) -> None:
        """Show the same picture of another part."""
        self._at = (self._at + by) % len(self._places)
        self._show()

    def action_plain(self) -> None:
        """Draw with plain characters, or with dots again."""
        drawn = self.query_one(Drawn)
        drawn.plain = not drawn.plain
        drawn.refresh()

    @property
    def _is_ring(self) -> bool:
        circuit = self.place.circuit
        return circuit is not None and self._session.record.circuit(circuit).form is Form.RING

    @property
    def _sorts(self) -> list[Sort]:
        return [each for each in Sort if each is not Sort.RING or self._is_ring]

    def _show(self) -> None:
        name = title(self._session.record, self.place)
        pages = [(f"‹{each}›" if each is self.sort else f" {each} ") for each in self._sorts]
        head = f"{self._at + 1}/{len(self._places)}  {name}"
        room = max(self.app.size.width - sum(map(len, pages)) - 12, 20)
        if len(head) > room:
            head = f"{head[: room - 1].rstrip()}…"
        self.query_one("#dialog-title", Static).update(f"{head}   {''.join(pages)}")
        self.query_one(Drawn).show(self._painter())

    def _painter(self) -> Painter:
        record, expected, place = self._session.record, self._session.expected, self.place
        if self.sort is Sort.CURVE:
            curve = time_current(record, expected, place)
            if not isinstance(curve, NotWorkedOut):
                return lambda width, height, plain: _with_words(
                    curve_words(curve, plain=plain),
                    width,
                    height,
                    lambda across, down: draw_curve(curve, across, down, plain=plain).content(),
                )
            return _reason(curve)
        if self.sort is Sort.RING:
            review = self._session.review
            ring = ring_picture(record, expected, place, doubted(review))
            if isinstance(ring, NotWorkedOut):
                return _reason(ring)
            told = [
                Content.styled(
                    f"{each.verdict.mark} {each.verdict.value}: {each.why}", style("bad")
                )
                for each in ring_patterns(review, place.circuit or "")
            ]
            return lambda width, height, plain: _with_words(
                [*ring_words(ring, plain=plain), *told],
                width,
                height,
                lambda across, down: draw_ring(ring, across, down, plain=plain).content(),
            )
        bars = loop_bars(record, expected, place)
        if isinstance(bars, NotWorkedOut):
            return _reason(bars)
        return lambda width, height, plain: draw_loop(bars, width, height, plain=plain)


_FEWEST = 12
"""Lines that a picture keeps, however much there is to say under it."""


def _with_words(
    words: Sequence[Content], width: int, height: int, draw: Callable[[int, int], Content]
) -> Content:
    """Return a picture with words under it; words that find no room are cut with a sign."""
    lines = [part for each in words for part in each.wrap(max(width, 20))]
    room = max(height - _FEWEST, 0)
    if len(lines) > room:
        last = [Content(f"{lines[room - 1].plain[: width - 2].rstrip()} …")] if room else []
        lines = [*lines[: max(room - 1, 0)], *last]
    return Content("\n").join([draw(width, height - len(lines)), *lines])


def _reason(why: NotWorkedOut) -> Painter:
    return lambda width, height, plain: Content("\n").join(
        Content(plain_text(why.why) if plain else why.why).wrap(max(width, 20))
    )
