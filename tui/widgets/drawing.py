"""How the rows of a form look: plain lines, and where the one input stands among them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field
from functools import lru_cache

from rich.cells import cell_len, set_cell_size
from textual.content import Content
from textual.geometry import Region

from records.entering.field import NOT_SAID, Field, Kind, Option
from tui.look import MARKS, style
from tui.widgets.rows import Act, Heading, Link, Note, Row

GUTTER = 2
_LABEL_MOST = 28
_FIGURE_WIDTH = 12
_MORE = " …"
"""Stands beside a field whose text is longer than there is room for."""
_NONE = "none of the answers has this: delete it to see them"
_LINK_LINES = 2
"""Lines that the name of something to open may take; the whole of it stands on its own page."""


@dataclass(frozen=True, slots=True)
class State:
    """What a form knows beside its rows."""

    at: int = -1
    """Index of the row that the cursor is on."""
    echo: str = ""
    """What the typed text is understood as."""
    options: Sequence[Option] | None = None
    """The answers on offer while a list is open."""
    picked: int = 0
    """Which of them the bar is on."""
    refusals: Mapping[str, str] = field(default_factory=dict)
    """Why what was typed was not taken, by the key of the field."""
    drafts: Mapping[str, str] = field(default_factory=dict)
    """What was typed and not accepted, by the key of the field."""
    kept: Set[str] = frozenset()
    """Keys of the fields that were put on disk while the form was shown."""


@dataclass(slots=True)
class Drawing:
    """A form as lines."""

    lines: list[Content] = field(default_factory=list)
    owners: list[tuple[int, int | None]] = field(default_factory=list)
    """For each line its row, and its option if it is one of an open list."""
    entry: tuple[int, int, int] = (1, 0, 1)
    """Column, line and width of the input."""

    def add(self, line: Content, row: int, option: int | None = None) -> None:
        """Add a line."""
        self.lines.append(line)
        self.owners.append((row, option))

    def around(self, row: int, is_first: bool, room: int) -> Region | None:
        """Return the lines to bring in sight for a row; None if it has none.

        Args:
            row: Its index.
            is_first: Whether all that stands over it belongs to it; else the line over it does.
            room: Lines that can be seen; if they are too few, the row's own come first.
        """
        mine = [line for line, (owner, _) in enumerate(self.owners) if owner == row]
        if not mine:
            return None
        first, last = mine[0], mine[-1]
        top = 0 if is_first else max(first - 1, 0)
        region = Region(0, top, 1, max(last - top + 1, 1))
        return region if region.height <= room else Region(0, first, 1, room)


def draw(rows: Sequence[Row], state: State, width: int) -> Drawing:
    """Return the rows as lines of at most `width` cells."""
    drawing = Drawing()
    column = _column((row.label for row in rows if isinstance(row, Field)), width)
    links = _column((row.label for row in rows if isinstance(row, Link)), width)
    for at, row in enumerate(rows):
        here = at == state.at
        if here:
            drawing.entry = (1, len(drawing.lines), 1)
        if isinstance(row, Heading):
            _heading(drawing, row, at, width)
        elif isinstance(row, Note):
            _note(drawing, row, at, width)
        elif isinstance(row, Field):
            _field(drawing, row, at, state, column, width)
        elif isinstance(row, Link):
            _link(drawing, row, at, here, links, width)
        else:
            _act(drawing, row, at, here, width)
    return drawing


def _column(labels: Iterable[str], width: int) -> int:
    """Return the column at which what belongs to these labels begins."""
    widest = max((cell_len(each) for each in labels), default=12)
    return GUTTER + min(max(widest, 12), _LABEL_MOST, max(width // 2 - GUTTER, 8)) + 2


def _heading(drawing: Drawing, row: Heading, at: int, width: int) -> None:
    if at:
        drawing.add(Content(""), at)
    rule = "─" * max(width - len(row.text) - 1, 0)
    drawing.add(Content.assemble((row.text, "bold $primary"), (f" {rule}", "$rule")), at)


def _note(drawing: Drawing, row: Note, at: int, width: int) -> None:
    mark = MARKS[row.tone]
    indent = f"{mark} " if mark else ""
    for number, line in enumerate(_wrap(row.text, width - GUTTER)):
        lead = indent if number == 0 and indent else " " * GUTTER
        drawing.add(Content.styled(lead + line, style(row.tone)), at)


def _field(drawing: Drawing, row: Field, at: int, state: State, column: int, width: int) -> None:
    here = at == state.at
    room = max(width - column, 4)
    labels = _wrap(row.label, column - GUTTER - 1)
    label_style = "bold" if here else "$quiet"
    if here and (not row.is_choice or state.options is not None):
        whole = row.kind in (Kind.TEXT, Kind.LINE) or row.is_choice
        taken = room if whole else min(_FIGURE_WIDTH, room)
        longer = row.kind is Kind.TEXT and cell_len(row.shown) >= taken > len(_MORE)
        taken -= len(_MORE) if longer else 0
        drawing.entry = (column, len(drawing.lines), taken)
        beside = _MORE if longer else "" if row.kind is Kind.LINE else f" {state.echo}"
        # Under the input stands the same text: a new form is painted once before it has its place.
        text = set_cell_size(state.drafts.get(row.key, "" if row.is_choice else row.bare), taken)
        values = [Content.assemble((text, "bold"), (beside, "$secondary"))]
        # As high as without the cursor: a row that jumps has the screen laid out twice.
        values += [Content("")] * (len(_values(row, state, room)) - 1)
    else:
        values = _values(row, state, room)
    for number in range(max(len(labels), len(values))):
        label = labels[number] if number < len(labels) else ""
        value = values[number] if number < len(values) else Content("")
        lead = "▸ " if here and number == 0 else " " * GUTTER
        line = Content.assemble(
            (lead, "bold $primary"), (_pad(label, column - GUTTER), label_style), value
        )
        drawing.add(line.truncate(width), at)
    if here and row.kind is Kind.LINE:
        for text in _wrap(state.echo, width - 2 * GUTTER) if state.echo else ():
            drawing.add(Content.assemble("    ", (text, "$secondary")), at)
    if here and state.options is not None:
        _options(drawing, state, at, column, width)
    if refusal := state.refusals.get(row.key):
        for number, text in enumerate(_wrap(refusal, width - 2 * GUTTER)):
            lead = "  ✗ " if number == 0 else "    "
            drawing.add(Content.styled(lead + text, style("bad")), at)


def _values(row: Field, state: State, room: int) -> list[Content]:
    draft = state.drafts.get(row.key)
    if draft is not None:
        return [
            Content.styled(text, style("warn"))
            for text in _wrap(f"! “{draft}” is not kept yet", room)
        ]
    mark = Content.styled("  ✓ kept", style("good")) if row.key in state.kept else Content("")
    if row.kind is Kind.LINE:
        return [Content.styled("… as on an offcut", "$quiet")]
    if row.value is None or row.shown == "":
        word = NOT_SAID if row.is_choice else "·"
        return [Content.assemble((word, "$quiet"), mark)]
    lines = _wrap(row.shown, room)
    values = [Content(text) for text in lines]
    if len(lines[-1]) + mark.cell_length <= room:
        values[-1] = Content.assemble(values[-1], mark)
    return values


def _options(drawing: Drawing, state: State, at: int, column: int, width: int) -> None:
    indent = min(column, 6)
    if not state.options:
        drawing.add(Content.styled(f"{'':<{indent}}{_NONE}", "$quiet"), at)
    for number, option in enumerate(state.options or ()):
        lead = "▸ " if number == state.picked else "  "
        note = f"  {option.note}" if option.note else ""
        text = Content(f"{lead}{option.label}{note}").truncate(width - indent, ellipsis=True)
        look = "bold $ink on $primary" if number == state.picked else ""
        line = Content.assemble(" " * indent, (_pad(text.plain, width - indent), look))
        drawing.add(line, at, number)


def _link(drawing: Drawing, row: Link, at: int, here: bool, column: int, width: int) -> None:
    lead = "▸ " if here else " " * GUTTER
    end = " ›"
    name_room = max(column - GUTTER - 2, 8)
    label = _wrap(row.label, name_room)
    if len(label) > _LINK_LINES:
        last = label[_LINK_LINES - 1]
        label = (*label[: _LINK_LINES - 1], _cut(last, name_room))
    summary = _wrap(row.summary, max(width - column - len(end), 8)) or ("",)
    for number in range(max(len(label), len(summary))):
        name = label[number] if number < len(label) else ""
        said = summary[number] if number < len(summary) else ""
        first = number == 0
        pad = max(width - column - len(end), 0)
        drawing.add(
            Content.assemble(
                (lead if first else " " * GUTTER, "bold $primary"),
                (_pad(name, column - GUTTER), "bold" if here else ""),
                (_pad(said, pad), "" if here else "$quiet"),
                (end if first else "", "bold $primary"),
            ),
            at,
        )


def _act(drawing: Drawing, row: Act, at: int, here: bool, width: int) -> None:
    lead = "▸ " if here else " " * GUTTER
    text = Content.assemble(
        (lead, "bold $primary"), (row.label, "bold underline" if here else "$secondary")
    )
    drawing.add(text.truncate(width), at)


@lru_cache(maxsize=1024)
def _wrap(text: str, width: int) -> tuple[str, ...]:
    """Return the text in lines, broken between words, or within one that is too long.

    Remembered, since each key draws the whole form and changes one line of it.
    """
    if cell_len(text) <= width:
        return (text,)
    return tuple(line.plain.rstrip() for line in Content(text).wrap(max(width, 1)))


def _cut(text: str, width: int) -> str:
    """Return the words of a text that find room with a sign after them that there are more."""
    while " " in text and cell_len(text) + 2 > width:
        text = text.rpartition(" ")[0]
    return f"{set_cell_size(text, min(cell_len(text), width - 2)).rstrip(',.;: ')} …"


def _pad(text: str, width: int) -> str:
    # By cells, not by characters: a name may hold characters that are two cells wide.
    return text + " " * (width - cell_len(text))
