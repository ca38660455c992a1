"""Rows of a table of options, as text: what a screen and a print have in common."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence

from records.expected.results import Worked
from records.options.cell import Cell, Check
from records.options.circuit import CircuitChoice, CircuitOption
from records.options.feed import Choice, Option, cpc_words
from records.terms import CableKind, Verdict

FEED_HEAD = ("cable", "cpc", "Iz A", "drop %", "Zs Ω", "off s", "cpc", "bond", "decides")
CIRCUIT_HEAD = (
    "form",
    "line mm²",
    "In A",
    "Iz A",
    "drop %",
    "Zs Ω",
    "off s",
    "cpc",
    "up to m",
    "decides",
)
_KINDS = {
    CableKind.SWA_XLPE: "XLPE",
    CableKind.SWA_PVC: "PVC",
    CableKind.FLAT: "T+E",
    CableKind.SINGLES: "single",
    CableKind.FLEX: "flex",
}
_DECIDES = {
    Check.LOAD: "load",
    Check.RATING: "rating",
    Check.DROP: "volt drop",
    Check.LOOP: "loop",
    Check.TIME: "time",
    Check.CPC: "cpc size",
    Check.BOND: "bond",
    Check.BREAKING: "breaking",
}


NOW = "*"
"""Behind the cable that a run has now."""


def feed_row(option: Option, u0: float, *, now: bool = False) -> tuple[str, ...]:
    """Return a feed option in cells of text, as `FEED_HEAD` has them.

    Args:
        option: The cable, tried.
        u0: Nominal voltage to earth [V].
        now: Whether the run has that cable now.
    """
    make, by = option.make, _by_check(option.cells)
    cable = f"{make.cores}c {make.csa:g} {_KINDS[make.cable]}"
    if not make.cable.is_armoured:
        cable = f"{make.csa:g} {_KINDS[make.cable]}"
    cable += NOW if now else ""
    return (
        cable,
        cpc_words(make).removesuffix(" mm²"),
        *_common(by, u0),
        _short(by, Check.BOND),
        _decides(option.decides),
    )


def circuit_row(option: CircuitOption, u0: float) -> tuple[str, ...]:
    """Return a circuit option in cells of text, as `CIRCUIT_HEAD` has them."""
    by = _by_check(option.cells)
    longest = f"{option.longest:g}" if option.longest else "–"
    return (
        option.form.words.split()[0],
        f"{option.csa:g}",
        f"{option.rating:g}",
        *_common(by, u0),
        longest,
        _decides(option.decides, own=True),
    )


def _common(by: dict[Check, Cell], u0: float) -> tuple[str, ...]:
    return (
        _figure(by, Check.RATING),
        _figure(by, Check.DROP, 100 / u0, 2),
        _figure(by, Check.LOOP, digits=2),
        _time(by.get(Check.TIME)),
        _short(by, Check.CPC),
    )


def _by_check(cells: Iterable[Cell]) -> dict[Check, Cell]:
    return {each.check: each for each in cells}


def _mark(cell: Cell) -> str:
    return "" if cell.verdict is Verdict.WITHIN else cell.verdict.mark


def _figure(by: dict[Check, Cell], check: Check, times: float = 1.0, digits: int = 1) -> str:
    cell = by.get(check)
    if cell is None:
        return "–"
    if not isinstance(cell.result, Worked):
        return cell.verdict.mark
    return f"{cell.result.value * times:.{digits}f}{_mark(cell)}"


def _time(cell: Cell | None) -> str:
    if cell is None:
        return "–"
    if not isinstance(cell.result, Worked):
        return cell.verdict.mark
    latest = cell.result.value if cell.result.high is None else cell.result.high
    if math.isinf(latest) and cell.verdict is Verdict.WITHIN:
        return cell.verdict.mark
    figure = "> 5" if math.isinf(latest) else f"{latest:.1f}"
    return f"{figure}{_mark(cell)}"


def _short(by: dict[Check, Cell], check: Check) -> str:
    cell = by.get(check)
    return "–" if cell is None else cell.verdict.mark


def _decides(cell: Cell | None, *, own: bool = False) -> str:
    if cell is None:
        return ""
    at = f" {cell.place.circuit}" if cell.place.circuit and not own else ""
    if cell.verdict is not Verdict.NOT_TAKEN:
        return f"{_DECIDES[cell.check]}{at}"
    # A cpc whose size is known may need a current, or what its maker says; else an input lacks.
    known = cell.check is Check.CPC and isinstance(cell.result, Worked)
    return f"needs {'a current' if known else 'an input'}{at}"


def telling(choice: Choice) -> Iterator[Option]:
    """Yield the options of a feed that are worth reading: from just under the smallest on.

    One line size below the smallest that will do, to one above the first with room; of separate
    cpcs beside one cable only the smallest that will do, else the largest. The cable of now is
    among them, also where nobody makes it.
    """
    sizes = sorted({each.make.csa for each in choice.options})
    if choice.smallest is None:
        first, last = max(len(sizes) - 2, 0), len(sizes) - 1
    else:
        roomy = choice.roomy or choice.smallest
        first = max(sizes.index(choice.smallest.make.csa) - 1, 0)
        last = min(sizes.index(roomy.make.csa) + 1, len(sizes) - 1)
    wanted = [each for each in choice.options if each.make.csa in sizes[first : last + 1]]
    kept: dict[object, Option] = {}
    three = (choice.smallest, choice.roomy, choice.present)
    marked = {id(each) for each in three if each is not None}
    for each in wanted:
        make = each.make
        before = kept.get(key := (make.cable, make.cores, make.csa, make.cpc))
        if before is None or (not before.will_do) or id(each) in marked:
            kept[key] = each
    chosen = {id(each) for each in kept.values()} | marked
    yield from (each for each in choice.options if id(each) in chosen)
    if choice.present is not None and all(each is not choice.present for each in choice.options):
        yield choice.present


def telling_circuit(choice: CircuitChoice) -> Iterator[CircuitOption]:
    """Yield the options of a circuit that are worth reading: of each form and device the two
    smallest lines that will do, or may, and the one under them if it would do at a shorter length.
    """
    groups: dict[object, list[CircuitOption]] = {}
    for each in choice.options:
        groups.setdefault((each.form, each.rating), []).append(each)
    kept = set()
    for group in groups.values():
        passing = [at for at, each in enumerate(group) if each.verdict is not Verdict.OUTSIDE]
        first = passing[0] if passing else len(group)
        near = [first - 1] if first and group[first - 1].longest else []
        kept |= {id(group[at]) for at in (*near, *passing[:2])}
    yield from (each for each in choice.options if id(each) in kept)


_COLUMNS = {
    "Iz A": Check.RATING,
    "drop %": Check.DROP,
    "Zs Ω": Check.LOOP,
    "off s": Check.TIME,
    "cpc": Check.CPC,
    "bond": Check.BOND,
}


def behind(head: Sequence[str], cells: Iterable[Cell], decides: Cell | None) -> list[Cell | None]:
    """Return for each column of a table the check that stands behind it; None: there is none.

    Args:
        head: Names of the columns; the second “cpc” of a feed is the check, the first a choice.
        cells: Checks of the option.
        decides: The one that decides.
    """
    by = _by_check(cells)
    last = {name: at for at, name in enumerate(head)}
    found: list[Cell | None] = []
    for at, name in enumerate(head):
        check = _COLUMNS.get(name) if last[name] == at else None
        found.append(decides if name == "decides" else by.get(check) if check else None)
    return found


_FIGURE = re.compile(r"(?:> )?([\d.]+)(?: (?:A|m))?[✗!·?]?")
_DIGITS = re.compile(r"\d+(?:\.\d+)?")


def sort_key(text: str) -> tuple[int, float, str]:
    """Return what a cell of a table is put in order by: figures by size, then words, then none.

    In words as well numbers count by their size: `2c 4` comes before `2c 10`.
    """
    figure = _FIGURE.fullmatch(text)
    if figure is not None:
        return 0, float(figure[1]), text
    if text in ("–", "", "?"):
        return 2, 0.0, text
    return 1, 0.0, _DIGITS.sub(lambda found: f"{float(found[0]):09.3f}", text)
