"""Reads one part of a document, element by element, into its paragraphs."""

from __future__ import annotations

from dataclasses import dataclass, field

from records.document.edges import Section
from records.document.hidden_text import Look, Styles, W, is_clipped

OWN = "own_"
"""Bookmarks whose names begin so are the certifier's places."""
OWN_START, OWN_END = "\ue000", "\ue001"
_TAKEN = str.maketrans({OWN_START: "\ufffd", OWN_END: "\ufffd", "\u2011": "-", "\u00ad": ""})
NUMBER = "#"
"""Stands for a page number or a counter: what it says is the word processor's."""
_DRAWN = {"off", "ext", "chOff", "chExt", "pt", "prstGeom", "prstDash", "srgbClr", "ln"}
"""Of a drawing: where its shapes are, their form and their pens."""
_WIDEST, _LEFTMOST = 9_000, -1_500
"""Twentieths of a point: a text indented further is off the page."""
_COMPATIBLE = "http://schemas.openxmlformats.org/markup-compatibility/2006"
_KNOWN = {"wps", "wpg", "wpc", "wpi", "wp14", "w14", "w15", "w16", "a14", "v"}
"""What a drawing may ask of a word processor of today, before its stand-in is shown."""
_COUNTERS = {"PAGE", "NUMPAGES", "PAGEREF", "SEQ", "SECTIONPAGES"}
_PLAIN_FIELDS = {"HYPERLINK", "TOC"}
_DELETED = {"del", "moveFrom"}
_BLANKS = {"tab", "br", "cr", "ptab"}


def as_read(text: str) -> str:
    """Return a text as it is read from a page: hyphens that only break a line don't count."""
    return text.translate(_TAKEN)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph as it is said; a certifier's place is one with all that stands in its cell."""

    text: str
    """Blanks as one each; in a certifier's place, with the marks of its bookmarks."""
    place: str
    """Its heading, and in a table the row and the column."""
    own: tuple[str, ...] = ()
    """Names of the certifier's places in it."""

    @property
    def plain(self) -> str:
        """The text without marks of bookmarks."""
        return " ".join(self.text.replace(OWN_START, " ").replace(OWN_END, " ").split())


@dataclass(slots=True)
class _Open:
    """A paragraph that is being read."""

    style: str = ""
    clipped: bool = False
    """Its lines are too low to show a text."""
    texts: list[str] = field(default_factory=list)
    own: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Run:
    look: Look = field(default_factory=Look)
    style: str = ""
    hidden: bool | None = None


@dataclass(slots=True)
class _Field:
    asks: list[str] = field(default_factory=list)
    shows: list[str] = field(default_factory=list)
    result: bool = False

    @property
    def kind(self) -> str:
        return next(iter("".join(self.asks).split()), "").upper()


@dataclass(slots=True)
class _Table:
    heads: dict[int, str] = field(default_factory=dict)
    is_head: bool = False
    is_hidden: bool = False
    column: int = 0
    row: str = ""

    @property
    def head(self) -> str:
        """The heading of the column; with that before it, if several columns have the same."""
        found = self.heads.get(self.column, "")
        before = self.heads.get(self.column - 1, "")
        several = list(self.heads.values()).count(found) > 1
        return f"{before}, {found}" if several and before and found else found


@dataclass(slots=True)
class _Cell:
    span: int = 1
    own: list[str] = field(default_factory=list)
    inside: list[Paragraph] = field(default_factory=list)


class Story:
    """The paragraphs of one part; give its methods to a `Reader`."""

    def __init__(self, styles: Styles) -> None:
        self.paragraphs: list[Paragraph] = []
        self.drawings = 0
        self.drawn: list[str] = []
        """Form and place of all shapes, as numbers."""
        self.alternatives: set[str] = set()
        """What pictures are said to show, for whoever can't see them."""
        self.sections: list[Section] = []
        self._styles = styles
        self._heading = ""
        self._names: list[str] = []
        self._skipped: int | None = None
        self._understood: list[bool] = []
        self._open: list[_Open] = []
        self._runs: list[_Run] = []
        self._fields: list[_Field] = []
        self._tables: list[_Table] = []
        self._cells: list[_Cell] = []
        self._ends: set[str] = set()

    def start(self, name: str, given: dict[str, str]) -> None:
        """Take the start of an element."""
        space, _, local = name.rpartition(" ")
        parent = self._names[-1] if self._names else ""
        self._names.append(local)
        if self._skipped is not None:
            return
        if space == _COMPATIBLE:
            self._alternative(local, given)
        elif space != W:
            self._draw(local, given)
        elif local in _DELETED and parent not in ("rPr", "trPr"):
            self._skipped = len(self._names)
        else:
            self._word(local, parent, {key.removeprefix(f"{W} "): given[key] for key in given})
            if parent == "rPr" and self._runs and self._names[-3:-2] == ["r"]:
                self._runs[-1].look.take(local, given)

    def end(self, name: str) -> None:
        """Take the end of an element."""
        space, _, local = name.rpartition(" ")
        depth = len(self._names)
        self._names.pop()
        if self._skipped is not None:
            if self._skipped == depth:
                self._skipped = None
            return
        if space == _COMPATIBLE and local == "AlternateContent":
            self._understood.pop()
        elif local == "t" and space != W and self._open:
            self._runs.pop()
        elif space != W:
            return
        elif local == "r":
            self._runs.pop()
        elif local == "p":
            self._emit(self._open.pop())
        elif local == "fldSimple":
            self._close_field()
        elif local == "tc":
            self._close_cell(self._cells.pop())
        elif local == "tbl":
            self._tables.pop()

    def text(self, data: str) -> None:
        """Take what stands between."""
        if self._skipped is not None or not self._names:
            return
        if self._names[-1] == "t":
            self._say(as_read(data))
        elif self._names[-1] == "instrText" and self._fields:
            self._fields[-1].asks.append(data)

    def _draw(self, local: str, given: dict[str, str]) -> None:
        if local in ("anchor", "inline"):
            self.drawings += 1
        elif local == "t" and self._open:  # of a drawing or a formula
            self._runs.append(_Run(hidden=False))
        elif local == "docPr":
            said = (" ".join(given.get(each, "").split()) for each in ("descr", "title"))
            self.alternatives.update(filter(None, said))
        elif local in _DRAWN:
            self.drawn.append(f"{local} {' '.join(given[key] for key in sorted(given))}")

    def _alternative(self, local: str, given: dict[str, str]) -> None:
        if local == "AlternateContent":
            self._understood.append(False)
        elif not self._understood:
            return
        elif local == "Choice":
            asked = given.get("Requires", "").split()
            if self._understood[-1] or not _KNOWN.issuperset(asked):
                self._skipped = len(self._names)
            else:
                self._understood[-1] = True
        elif local == "Fallback" and self._understood[-1]:
            self._skipped = len(self._names)

    def _word(self, local: str, parent: str, given: dict[str, str]) -> None:
        match local:
            case "p":
                self._open.append(_Open())
            case "r":
                self._runs.append(_Run())
            case "pStyle" if self._open and parent == "pPr":
                self._open[-1].style = given.get("val", "")
            case "rStyle" if self._runs and self._names[-3:-1] == ["r", "rPr"]:
                self._runs[-1].style = given.get("val", "")
            case "fldChar" | "fldSimple":
                self._field(local, given)
            case "noBreakHyphen":
                self._say("-")
            case "sym":
                self._say(f"[{given.get('char', '')}]")
            case "altChunk" | "subDoc":
                self.paragraphs.append(Paragraph("[text of another file]", self._heading))
            case "object" | "pict":
                self.drawings += 1
            case "bookmarkStart" | "bookmarkEnd":
                self._bookmark(local, given)
            case "bdo" if given.get("val") == "rtl":
                self._put("[turned round] ")
            case "dataBinding":
                self._put("[from other data] ")
            case "spacing" if self._open and parent == "pPr":
                exact = given.get("lineRule", "")
                self._open[-1].clipped |= is_clipped(given.get("line", ""), exact)
            case "ind" if self._open and parent == "pPr":
                self._open[-1].clipped |= _is_off(given)
            case "numId" if self._open and parent == "numPr" and given.get("val") != "0":
                self._put("[numbered] ")
            case "sectPr" if parent != "sectPrChange":
                self.sections.append(Section())
            case "titlePg" | "headerReference" | "footerReference" if self.sections:
                self.sections[-1].take(local, given)
            case "hidden" | "trHeight" if self._tables and parent == "trPr":
                height, rule = given.get("val", ""), given.get("hRule", "")
                off = local == "hidden" and height not in ("0", "false", "off")
                self._tables[-1].is_hidden |= off or is_clipped(height, rule)
            case "tbl" | "tr" | "tblHeader" | "tc" | "gridSpan":
                self._in_table(local, given)
            case _ if local in _BLANKS and parent == "r":
                self._say(" ")

    def _field(self, local: str, given: dict[str, str]) -> None:
        if local == "fldSimple":
            self._fields.append(_Field([given.get("instr", "")]))
            self._begin_result()
            return
        kind = given.get("fldCharType")
        if kind == "begin":
            self._fields.append(_Field())
        elif kind == "separate" and self._fields:
            self._begin_result()
        elif kind == "end":
            self._close_field()

    def _close_field(self) -> None:
        if not self._fields:
            return
        it = self._fields.pop()
        if it.kind in _COUNTERS:
            shown = "".join(it.shows).strip()
            self._put(NUMBER if not shown or shown.isdecimal() or shown in "–-" else shown)

    def _begin_result(self) -> None:
        it = self._fields[-1]
        it.result = True
        if it.kind not in _COUNTERS | _PLAIN_FIELDS:
            # What it shows now may not be what it shows once a word processor renews it.
            self._put(f"[field {it.kind}] ")

    def _bookmark(self, local: str, given: dict[str, str]) -> None:
        number, name = given.get("id", ""), given.get("name", "")
        if local == "bookmarkStart" and name.startswith(OWN):
            self._ends.add(number)
            if self._open:
                self._open[-1].own.append(name)
            if self._cells:
                self._cells[-1].own.append(name)
            self._put(OWN_START)
        elif local == "bookmarkEnd" and number in self._ends:
            self._ends.discard(number)
            self._put(OWN_END)

    def _in_table(self, local: str, given: dict[str, str]) -> None:
        if local == "tbl":
            self._tables.append(_Table())
        elif not self._tables:
            return
        elif local == "tr":
            table = self._tables[-1]
            table.is_head, table.column, table.row = False, 0, ""
            table.is_hidden = False
        elif local == "tblHeader":
            self._tables[-1].is_head = given.get("val", "1") not in ("0", "false", "off")
        elif local == "tc":
            self._cells.append(_Cell())
        elif self._cells and given.get("val", "").isdecimal():
            self._cells[-1].span = min(int(given["val"][:4]), 100)

    def _say(self, text: str) -> None:
        if not self._runs or not self._open:
            return
        run = self._runs[-1]
        if self._open[-1].clipped or any(each.is_hidden for each in self._tables):
            return
        if run.hidden is None:
            run.hidden = self._styles.hides(run.look, run.style, self._open[-1].style)
        if not run.hidden:
            self._put(text)

    def _put(self, text: str) -> None:
        for each in reversed(self._fields):
            if each.result and each.kind in _COUNTERS:
                each.shows.append(text)
                return
        if self._open:
            self._open[-1].texts.append(text)

    def _emit(self, it: _Open) -> None:
        for each in self._fields:  # one that goes on past its paragraph hides nothing
            it.texts += each.shows
            each.shows.clear()
        text = " ".join("".join(it.texts).split())
        if not text and not it.own:
            return
        if not self._cells and self._styles.is_heading(it.style):
            self._heading = text
        found = Paragraph(text, self._place(), tuple(it.own))
        (self._cells[-1].inside if self._cells else self.paragraphs).append(found)

    def _place(self) -> str:
        parts = [self._heading]
        if self._tables and self._cells:
            table = self._tables[-1]
            if not table.is_head:
                parts += [table.row, table.head]
        return " · ".join(each for each in parts if each)

    def _close_cell(self, cell: _Cell) -> None:
        said = cell.inside
        text = " ".join(each.text for each in said)
        if cell.own:
            place = said[0].place if said else self._place()
            said = [Paragraph(text, place, tuple(cell.own))]
        (self._cells[-1].inside if self._cells else self.paragraphs).extend(said)
        if not self._tables:
            return
        table = self._tables[-1]
        if table.is_head:
            for column in range(table.column, table.column + cell.span):
                table.heads[column] = " ".join(filter(None, (table.heads.get(column), text)))
        elif not table.row:
            table.row = Paragraph(text, "").plain[:60]
        table.column += cell.span


def _is_off(given: dict[str, str]) -> bool:
    """Return whether an indent puts a text off the page."""
    for name in ("left", "start", "right", "end", "firstLine"):
        value = given.get(name, "0")
        if value.lstrip("-").isdecimal() and not _LEFTMOST < int(value[:7]) < _WIDEST:
            return True
    return False
