"""Which looks hide a text: what can't be seen on the page isn't said by it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_SWITCHES = {"vanish", "strike", "dstrike"}
_OFF = {"0", "false", "off", "none"}
_WHITE = {"background1", "light1"}
_LIGHT, _DARK = 0xEE, 0x30
_SMALLEST = 8
"""Half points: text under 4 points can't be read on paper."""
_NARROWEST = 20
"""Percent of its width, under which a letter is a stroke."""
_LOWEST = 80
"""Twentieths of a point: a line, or a row of a table, that is held lower shows no text."""
_SYMBOLS = {"symbol", "wingdings", "wingdings 2", "wingdings 3", "webdings", "marlett"}
"""Fonts in which letters and digits look like something else."""


@dataclass(slots=True)
class Look:
    """What is known of the look of a run or a style; None: not said there."""

    switches: dict[str, bool] = field(default_factory=dict)
    light: bool | None = None
    dark_behind: bool | None = None
    size: int | None = None
    width: int | None = None
    symbols: bool | None = None
    based_on: str = ""

    def take(self, name: str, given: Mapping[str, str]) -> None:
        """Take one property of a run.

        Args:
            name: Of the element, without its namespace.
            given: Its attributes.
        """
        value = given.get(f"{W} val", "")
        if name in _SWITCHES:
            self.switches[name] = value.lower() not in _OFF
        elif name == "color":
            theme = given.get(f"{W} themeColor", "")
            self.light = theme in _WHITE or _within(value, _LIGHT, 0xFF)
        elif name == "highlight":
            self.dark_behind = value == "black"
        elif name == "shd":
            self.dark_behind = _within(given.get(f"{W} fill", ""), 0, _DARK)
        elif name == "sz" and value.isdecimal():
            self.size = int(value[:6])
        elif name == "w" and value.isdecimal():
            self.width = int(value[:6])
        elif name == "rFonts":
            font = given.get(f"{W} ascii", given.get(f"{W} hAnsi"))
            self.symbols = self.symbols if font is None else font.lower() in _SYMBOLS


class Styles:
    """The styles of a document, as far as they hide text or name headings."""

    def __init__(self) -> None:
        self._looks: dict[str, Look] = {"": Look()}
        self._names: dict[str, str] = {}
        self._open = ""
        self._usual = ""

    def start(self, name: str, given: dict[str, str], inside: Iterable[str]) -> None:
        """Take an element of `styles.xml`; `inside` names the elements that it stands in."""
        within = set(inside)
        if name == "style":
            self._open = given.get(f"{W} styleId", "")
            self._looks.setdefault(self._open, Look())
            if given.get(f"{W} type") == "paragraph" and given.get(f"{W} default") in ("1", "true"):
                self._usual = self._open
        elif name == "docDefaults":
            self._open = ""
        elif name == "basedOn":
            self._looks[self._open].based_on = given.get(f"{W} val", "")
        elif name == "name" and "style" in within:
            self._names.setdefault(self._open, given.get(f"{W} val", "").lower())
        elif "rPr" in within and not within & {"tblStylePr", "pPr", "rPrChange"}:
            self._looks[self._open].take(name, given)

    def is_heading(self, style: str) -> bool:
        """Return whether a paragraph style is one of headings."""
        name = self._names.get(style, style.lower())
        return name.startswith("heading") or name == "title"

    def hides(self, own: Look, *styles: str) -> bool:
        """Return whether a run can't be seen.

        Args:
            own: What the run says of itself.
            styles: Its character style, its paragraph's style (empty: the usual one): the first
                that says so, counts.
        """
        looks = [own]
        for each in (*styles, *(() if styles[-1:] != ("",) else (self._usual,)), ""):
            looks.extend(self._chain(each))
        switches: dict[str, bool] = {}
        for look in reversed(looks):
            switches.update(look.switches)
        if any(switches.values()):
            return True
        light = next((each.light for each in looks if each.light is not None), False)
        dark = next((each.dark_behind for each in looks if each.dark_behind is not None), False)
        size = next((each.size for each in looks if each.size is not None), _SMALLEST)
        width = next((each.width for each in looks if each.width is not None), 100)
        symbols = next((each.symbols for each in looks if each.symbols is not None), False)
        return light != dark or size < _SMALLEST or width < _NARROWEST or symbols

    def _chain(self, style: str) -> Iterable[Look]:
        seen: set[str] = set()
        while style in self._looks and style not in seen:
            seen.add(style)
            yield self._looks[style]
            style = self._looks[style].based_on


def is_clipped(height: str, rule: str) -> bool:
    """Return whether a line or a row is held so low that it shows no text.

    Args:
        height: In twentieths of a point.
        rule: Whether it is held: `exact`.
    """
    return rule == "exact" and height.isdecimal() and int(height[:6]) < _LOWEST


def _within(colour: str, least: int, most: int) -> bool:
    try:
        parts = bytes.fromhex(colour)
    except ValueError:
        return False
    return len(parts) == 3 and all(least <= each <= most for each in parts)
