"""The surfaces: where cables and boxes are, drawn, entered by one line each, and asked about."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from records.days import day_words
from records.errors import FarboardError
from records.expected.boxes import Placed, hole
from records.judgement.fabric.agreement import lengths_apart
from records.judgement.fabric.cover import Open
from records.model.fabric import Leg, Surface
from records.model.reading import Slot
from records.places.changing import covered, ticked, unplaced, with_drawn_length, without_leg
from records.places.cover_question import Act, cover_question, covered_words, read_covered
from records.places.line import Understood
from records.places.photo_line import understood_here
from records.session import Session
from records.store.patch import Op
from records.taking.undo import undo
from tui.dialogs.ask import Ask
from tui.dialogs.choose import Choose
from tui.dialogs.cut_outs import CutOuts
from tui.dialogs.dialog import Dialog
from tui.dialogs.reader import Reader
from tui.dialogs.splitting import ask_split
from tui.dialogs.surface_help import HELP, LETTERS
from tui.widgets.canvas import Drawn
from tui.widgets.wall_picture import SCALES, Seen, fitting, picture, size_of, things, words


class Surfaces(Dialog[Slot]):
    """Shows one surface at a time; it gives the reading that is to be taken first, if asked."""

    KEYS_LINE = "n enter · v safe to cover? · c cut-outs · Tab surface · + - 0 · ? keys · Esc"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n,enter", "enter", show=False),
        Binding("v", "safe", show=False),
        Binding("c", "cut", show=False),
        Binding("tab,pagedown", "walk(1)", show=False),
        Binding("shift+tab,pageup", "walk(-1)", show=False),
        Binding("left", "near(-1,0)", show=False),
        Binding("right", "near(1,0)", show=False),
        Binding("up", "near(0,1)", show=False),
        Binding("down", "near(0,-1)", show=False),
        Binding("shift+left", "pan(-1,0)", show=False),
        Binding("shift+right", "pan(1,0)", show=False),
        Binding("shift+up", "pan(0,-1)", show=False),
        Binding("shift+down", "pan(0,1)", show=False),
        Binding("plus,equals_sign", "zoom(-1)", show=False),
        Binding("minus", "zoom(1)", show=False),
        Binding("0", "whole", show=False),
        *(Binding(f"{digit}", f"alone({digit})", show=False) for digit in range(1, 10)),
        Binding("a", "all", show=False),
        Binding("z", "zones", show=False),
        Binding("o", "behind", show=False),
        Binding("d", "far", show=False),
        Binding("t", "take_drawn", show=False),
        Binding("b", "split", show=False),
        Binding("k", "keep_out", show=False),
        Binding("f8,delete", "take_out", show=False),
        Binding("l", "last_leg", show=False),
        Binding("ctrl+z", "undo", show=False),
        Binding("question_mark,f1", "help", show=False),
    ]

    def __init__(self, session: Session) -> None:
        """Take the opened record."""
        super().__init__("Surfaces")
        self._session = session
        self._at = 0
        self._seen = Seen()
        self._told = ""

    def compose_inside(self) -> ComposeResult:
        """Compose the picture, what the cursor is on, and what was done last."""
        yield Drawn(id="wall")
        yield Static("", id="wall-words", markup=False)
        yield Static("", id="wall-told", markup=False)

    def on_mount(self) -> None:
        """Show the first surface."""
        self.show()

    @property
    def surface(self) -> Surface | None:
        """The surface in hand."""
        found = self._session.record.fabric.surfaces
        return found[min(self._at, len(found) - 1)] if found else None

    def show(self) -> None:
        """Show the surface in hand as it is now."""
        record, surface = self._session.record, self.surface
        count = len(record.fabric.surfaces)
        drawn = self.query_one(Drawn)
        if surface is None:
            self.query_one("#dialog-title", Static).update("Surfaces: none is entered yet")
            first = "Press n and type the building: building 5000 x 3000 x 2400, fall 300 to south."
            drawn.show(lambda width, height, plain: Content(first))
            self._say(self._told)
            return
        state = "" if surface.covered is None else f", covered {day_words(surface.covered)}"
        title = f"{min(self._at, count - 1) + 1}/{count}  {surface.name or surface.id}{state}"
        self.query_one("#dialog-title", Static).update(title)
        seen = self._seen
        seen.at = max(0, min(seen.at, len(things(record, surface)) - 1))

        def paint(width: int, height: int, plain: bool) -> Content:
            rows = picture(record, surface, seen, width, height, plain=plain)
            return Content("\n").join(Content.assemble(*row) for row in rows)

        drawn.show(paint)
        self.query_one("#wall-words", Static).update(words(record, surface, seen))
        self._say(self._told)

    def _say(self, text: str) -> None:
        self._told = text
        self.query_one("#wall-told", Static).update(text)

    # Entering.

    def action_enter(self) -> None:
        """Ask for a line, and for the next one until Esc."""
        if self._session.read_only:
            self._say("This record is open for reading only.")
            return
        surface = self.surface
        name = "the building first" if surface is None else surface.name or surface.id
        title = f"{self._told}\n{name}: what is where?" if self._told else f"{name}: what is where?"
        self.app.push_screen(Ask(title, self._wrong), self._taken)

    def _understood(self, text: str) -> Understood:
        folder = self._session.file.path.parent
        return understood_here(self._session.record, self.surface, text, folder, date.today())

    def _wrong(self, text: str) -> str:
        if not text:
            return "Type a line, such as S1 450 up 620 along 2g. Esc ends."
        try:
            self._understood(text)
        except FarboardError as error:
            return str(error)
        return ""

    def _taken(self, text: str | None) -> None:
        if text is None:
            self.show()
            return
        found = self._understood(text)
        if self._change(found.ops, found.echo):
            self.action_enter()

    def _change(self, ops: Iterable[Op], said: str) -> bool:
        try:
            self._session.change(list(ops))
        except FarboardError as error:
            self._say(str(error))
            return False
        self._told = said
        self.show()
        return True

    def action_take_out(self) -> None:
        """Take what the cursor is on off the surface."""
        here = self._here()
        if here is not None:
            self._change(
                unplaced(self._session.record, here),
                f"{here.name} is taken off. Ctrl+Z brings it back.",
            )

    def action_last_leg(self) -> None:
        """Take the last leg of cable on this surface out."""
        legs = self._legs()
        if legs:
            self._change(
                without_leg(self._session.record, legs[-1]),
                f"Leg {legs[-1].id} is removed. Ctrl+Z brings it back.",
            )
        else:
            self._say("There is no cable here to remove.")

    def action_undo(self) -> None:
        """Take the last change back."""
        try:
            self._told = undo(self._session).outcome.words
        except FarboardError as error:
            self._say(str(error))
            return
        self.show()

    def _legs(self) -> list[Leg]:
        surface = self.surface
        legs = self._session.record.fabric.legs
        return [each for each in legs if surface is not None and each.surface == surface.id]

    def _here(self) -> Placed | None:
        surface = self.surface
        found = things(self._session.record, surface) if surface is not None else []
        return found[self._seen.at] if found else None

    # Looking.

    def action_walk(self, by: int) -> None:
        """Go to another surface."""
        count = len(self._session.record.fabric.surfaces)
        if count:
            self._at = (min(self._at, count - 1) + by) % count
            self._seen, self._told = Seen(), ""
            self.show()

    def action_near(self, across: int, up: int) -> None:
        """Go to the nearest thing that way."""
        surface, here = self.surface, self._here()
        if surface is None or here is None:
            return
        x, y = hole(here.spot).centre
        best: tuple[float, int] | None = None
        for at, each in enumerate(things(self._session.record, surface)):
            dx, dy = (a - b for a, b in zip(hole(each.spot).centre, (x, y), strict=True))
            ahead, beside = (dx * across, abs(dy)) if across else (dy * up, abs(dx))
            away = ahead + 2 * beside
            if at != self._seen.at and ahead > 0 and (best is None or away < best[0]):
                best = away, at
        if best is not None:
            self._seen.at = best[1]
            self._follow()
        self._told = ""
        self.show()

    def action_zoom(self, by: int) -> None:
        """Come nearer to the cursor, or go back."""
        surface, drawn = self.surface, self.query_one(Drawn)
        if surface is None or size_of(surface) is None:
            return
        most = fitting(surface, drawn.size.width, drawn.size.height)
        now = self._seen.scale or most
        scales = [each for each in SCALES if each <= most]
        at = max(0, min(scales.index(min(now, most)) + by, len(scales) - 1))
        self._seen.scale = 0 if scales[at] == most else scales[at]
        self._follow()
        self.show()

    def _follow(self) -> None:
        """Bring the cursor's thing to the middle, where only a part is shown."""
        surface, here, seen = self.surface, self._here(), self._seen
        size = None if surface is None else size_of(surface)
        if size is None or here is None or not seen.scale:
            seen.column = seen.row = 0
            return
        drawn = self.query_one(Drawn).size
        x, y = hole(here.spot).centre
        seen.column = max(0, int(x // seen.scale) - drawn.width // 2)
        seen.row = max(0, int((size[1] - y) // (2 * seen.scale)) - drawn.height // 2)

    def action_pan(self, across: int, down: int) -> None:
        """Move by half a picture."""
        drawn = self.query_one(Drawn).size
        self._seen.column = max(0, self._seen.column + across * drawn.width // 2)
        self._seen.row = max(0, self._seen.row + down * drawn.height // 2)
        self.show()

    def action_whole(self) -> None:
        """Show all of the surface."""
        self._seen.scale = self._seen.column = self._seen.row = 0
        self.show()

    def action_alone(self, number: int) -> None:
        """Show one circuit alone."""
        found = [each.id for each in self._session.record.circuits]
        if number <= len(found):
            self._seen.circuit = found[number - 1]
            self._told = f"{found[number - 1]} alone; a shows all."
            self.show()

    def action_all(self) -> None:
        """Show all circuits."""
        self._seen.circuit, self._told = None, ""
        self.show()

    def action_zones(self) -> None:
        """Fill the safe zones, or don't."""
        self._seen.zones = not self._seen.zones
        self.show()

    def action_behind(self) -> None:
        """Look from the other face of the wall, or from this one again."""
        self._seen.behind = not self._seen.behind
        self._seen.column = self._seen.row = 0
        self._told = "As seen from behind; o turns it back." if self._seen.behind else ""
        self.show()

    def action_far(self) -> None:
        """Measure from the other corner, or from the first again."""
        self._seen.far = not self._seen.far
        self._told = "Measured from the other corner; d turns it back." if self._seen.far else ""
        self.show()

    def action_take_drawn(self) -> None:
        """Take the drawn length of a run over as its length."""
        record = self._session.record
        found = tuple(lengths_apart(record))
        if not found:
            self._say("Drawn and entered lengths agree, or nothing is drawn yet.")
            return

        def taken(at: int | None) -> None:
            if at is not None:
                self._change(with_drawn_length(record, found[at]), f"{found[at]}: taken.")

        question = Choose("Which drawn length is right?", [str(each) for each in found])
        self.app.push_screen(question, taken)

    def action_split(self) -> None:
        """Find the bad length of a circuit by splitting it."""
        self._say(ask_split(self.app, self._session.record))

    def action_help(self) -> None:
        """Say how lines are typed, and the keys."""
        blocks = [Content(each) for each in HELP.split("\n\n")]
        self.app.push_screen(Reader("Surfaces", [*blocks, LETTERS]))

    # Asking.

    def action_safe(self) -> None:
        """Say whether the surface may be covered; Enter goes to what is missing."""
        surface = self.surface
        if surface is None:
            return
        question = cover_question(self._session, surface)
        name = surface.name or surface.id

        def taken(at: int | None) -> None:
            match None if at is None else question.chosen(at):
                case Open() as missing if missing.slot is not None:
                    self.dismiss(missing.slot)
                case Open() as missing:
                    self.app.push_screen(Reader(name, [Content(missing.what)]))
                case Act.TODAY:
                    self._set_covered(surface, date.today())
                case Act.OPEN_AGAIN:
                    self._set_covered(surface, None)
                case Act.ASK_DAY:
                    ask = Ask(f"{name}: covered on which day?", _no_day, start="today")
                    self.app.push_screen(ask, lambda typed: self._covered_on(surface, typed))

        asked = Choose(question.title, question.answers, text=question.text)
        self.app.push_screen(asked, taken)

    def _set_covered(self, surface: Surface, day: date | None) -> None:
        self._change(covered(self._session.record, surface, day), covered_words(surface, day))

    def _covered_on(self, surface: Surface, typed: str | None) -> None:
        if typed:
            self._set_covered(surface, read_covered(typed, date.today()))

    def action_cut(self) -> None:
        """Show the cut-out sheet, to tick off."""
        surface = self.surface
        if surface is not None:
            self.app.push_screen(CutOuts(self._session, surface, self._tick))

    def _tick(self, each: Placed) -> str:
        try:
            self._session.change(ticked(self._session.record, each))
        except FarboardError as error:
            return str(error)
        return ""

    def action_keep_out(self) -> None:
        """Say where no screw belongs."""
        from records.document.walls.cut_sheet import keep_out_lines

        surface = self.surface
        if surface is not None:
            lines = keep_out_lines(self._session.record, surface)
            self.app.push_screen(
                Reader(f"Keep screws out: {surface.name}", [Content(each) for each in lines])
            )


def _no_day(text: str) -> str:
    """Return why a text is no day on which something was covered; empty if it is one."""
    try:
        read_covered(text, date.today())
    except FarboardError as error:
        return str(error)
    return ""
