"""Legs of cable, holes in timber and trenches from one line: `C1 cable from S1 up 2280`."""

from __future__ import annotations

from dataclasses import dataclass

from records.errors import BadPlace
from records.expected.boxes import hole, placed
from records.expected.formulas.zones import top_at
from records.model.fabric import (
    Cover,
    Hole,
    Leg,
    Surface,
    SurfaceKind,
    Timber,
)
from records.model.record import Record, next_id
from records.places.words import Group, Word, millimetres, paired, unknown

_COVERS = {each.code: each for each in Cover if each is not Cover.NONE}
MOVES = ("from", "up", "down", "along", "to")
"""Words that say where a cable goes. A line that begins with one goes on with the last cable."""
_LEVEL = 1.0
"""mm within which two heights, or two distances along, are the same."""
_UNDER_TOP = 75.0
"""mm below the top of a wall: the middle of its zone."""
ROUTE = "Cable: C1 cable from S1 up 2280 along 2400 down 1950, deep 40. It may end with: to S3."
_HOLE = "A hole: L2 hole 20 at 300, stud 95, face 37. A joist needs span and support too."
_TIMBER = {each.code: each for each in Timber}


def legs(record: Record, surface: Surface, groups: tuple[Group, ...]) -> tuple[Leg, ...]:
    """Return the legs that a line says, each from where the one before ended.

    Raises:
        BadPlace: If the line can't be understood; it says what would be right.
    """
    circuit = owner(record, groups[0][0])
    behind = [
        each
        for each in record.fabric.legs
        if each.circuit == circuit and each.surface == surface.id
    ]
    last = behind[-1] if behind else None
    extra = _extra(groups[1:], _Extra.after(last))
    words = [each for each in groups[0][2:] if each.low not in ("then", "and", "go")]
    at, words = _start(record, surface, words, last)
    made: list[Leg] = []
    number = int(next_id("L", record.fabric.legs)[1:])
    targets: list[tuple[float, float]] = []
    while words or targets:
        if not targets:
            found, words = _move(record, surface, words, at)
            targets = list(found)
        target = targets.pop(0)
        if target == at:
            raise BadPlace("A leg ends where it begins. Type where it goes next.")
        made.append(
            Leg(
                id=f"L{number + len(made)}",
                circuit=circuit,
                run=extra.run,
                surface=surface.id,
                along=at[0],
                up=at[1],
                to_along=target[0],
                to_up=target[1],
                deep=extra.deep,
                cover=extra.cover,
                clips=extra.clips,
                bend=extra.bend,
            )
        )
        at = target
    if not made:
        raise BadPlace(f"Where does it go? {ROUTE}")
    return tuple(made)


def owner(record: Record, word: Word) -> str | None:
    """Return the circuit that a word names; None for the feed.

    Raises:
        BadPlace: If it names neither.
    """
    if word.low == "feed":
        return None
    found = next((each.id for each in record.circuits if each.id.casefold() == word.low), None)
    if found is None:
        ids = ", ".join(each.id for each in record.circuits)
        raise BadPlace(f"“{word.text}” is no circuit. Type feed{f' or {ids}' if ids else ''}.")
    return found


@dataclass(frozen=True, slots=True)
class _Extra:
    """What a line says of all its legs."""

    deep: float | None
    run: int
    cover: Cover
    clips: float | None
    bend: float | None

    @classmethod
    def after(cls, last: Leg | None) -> _Extra:
        """Return what goes on from the leg before: its run and depth.

        Not that it is in sight: what goes into the wall next would be judged by nothing.
        """
        if last is None:
            return cls(None, 0, Cover.NONE, None, None)
        return cls(last.deep or None, last.run, Cover.NONE, None, None)


def _extra(groups: tuple[Group, ...], before: _Extra) -> _Extra:
    """Return what a line says of all its legs, on top of what was known before it."""
    roles: dict[str, float] = {}
    cover = before.cover
    for group in groups:
        said = paired(group, ("deep", "run", "clips", "bend"))
        roles |= said.roles
        for word in said.words:
            if word.low in _COVERS:
                cover = _COVERS[word.low]
            elif word.low == "bare":
                cover = Cover.NONE
            elif word.low == "sight":
                roles["deep"] = 0.0
            elif word.low not in ("in", "steel", "earthed", "under", "behind"):
                raise unknown([word], ROUTE)
        if said.figures:
            raise BadPlace(f"“{said.figures[0]}”: say what it is. {ROUTE}")
    run = roles.get("run", before.run + 1)
    if run < 1 or not float(run).is_integer():
        raise BadPlace("Runs are counted from 1: run 2 is the second.")
    return _Extra(
        roles.get("deep", before.deep),
        int(run) - 1,
        cover,
        roles.get("clips", before.clips),
        roles.get("bend", before.bend),
    )


CHANGES = ("deep", "run", "clips", "bend", "plate", "conduit", "bare", "sight", "in", "off")
"""Words that change a leg which is there: `L4 deep 47, plate`, `L4 off`."""


def changed_leg(record: Record, groups: tuple[Group, ...]) -> tuple[int, Leg | None] | None:
    """Return a leg as a line changes it, with its number in the list; None for one taken out.

    Returns:
        None altogether if the line is about no leg: a lamp may be called L1 as well.
    Raises:
        BadPlace: If it is about a leg, and not understood.
    """
    words = groups[0]
    lows = [each.low for each in words]
    if len(words) < 2 or lows[1] not in CHANGES or {"up", "along"} & set(lows):
        return None
    known = [each.id.casefold() for each in record.fabric.legs]
    if lows[0] not in known:
        if not (lows[0][:1] == "l" and lows[0][1:].isdecimal()):
            return None
        raise BadPlace(
            f"There is no leg {words[0].text}. A lamp needs how far along and up as well."
        )
    at = known.index(lows[0])
    if lows[1] == "off":
        if len(words) > 2 or len(groups) > 1:
            raise BadPlace(f"To remove it, type {words[0].text} off and no more.")
        return at, None
    leg = record.fabric.legs[at]
    before = _Extra(leg.deep, leg.run, leg.cover, leg.clips, leg.bend)
    extra = _extra((words[1:], *groups[1:]), before)
    values = {each: getattr(extra, each) for each in ("deep", "run", "cover", "clips", "bend")}
    return at, leg.model_copy(update=values)


def _start(
    record: Record, surface: Surface, words: list[Word], last: Leg | None
) -> tuple[tuple[float, float], list[Word]]:
    if words and words[0].low == "from":
        if len(words) > 2 and words[1].is_figure and words[2].is_figure:
            return (millimetres(words[1].text), millimetres(words[2].text)), words[3:]
        if len(words) < 2:
            raise BadPlace(f"From where? {ROUTE}")
        return _point(record, surface, words[1]), words[2:]
    if last is None:
        raise BadPlace(f"No leg of it is on {surface.name} yet: say from where. {ROUTE}")
    return (last.to_along, last.to_up), words


def _point(record: Record, surface: Surface, word: Word) -> tuple[float, float]:
    low = word.text.casefold()
    found = [
        each
        for each in placed(record, surface)
        if low in (each.name.casefold(), each.name.casefold().partition(" ")[0])
    ]
    if len(found) != 1:
        names = ", ".join(each.name for each in placed(record, surface)) or "nothing yet"
        many = "Several things here are" if found else "Nothing here is"
        raise BadPlace(f"{many} called {word.text}. On {surface.name}: {names}.")
    return hole(found[0].spot).centre


_Ends = tuple[tuple[float, float], ...]
"""Where one leg after the other ends."""


def _move(
    record: Record, surface: Surface, words: list[Word], at: tuple[float, float]
) -> tuple[_Ends, list[Word]]:
    word, rest = words[0], words[1:]
    if word.low not in MOVES or word.low == "from" or not rest:
        raise unknown([word], ROUTE)
    if word.low == "to":
        return _to(record, surface, rest[0], at), rest[1:]
    if word.low == "along" and rest[0].low == "top":
        if len(rest) < 2:
            raise BadPlace("How far? Along under a slope it goes to, such as: along top 1500.")
        x = millimetres(rest[1].text)
        return ((x, _under_top(surface, x)),), rest[2:]
    if word.low == "along":
        return ((millimetres(rest[0].text), at[1]),), rest[1:]
    if rest[0].low == "top" and word.low == "up":
        high = _under_top(surface, at[0])
    else:
        high = millimetres(rest[0].text)
    if (high > at[1]) is not (word.low == "up"):
        raise BadPlace(
            f"It is at {at[1]:g} up: {word.low} to {high:g} doesn't go {word.low}. Heights are "
            "from the floor."
        )
    return ((at[0], high),), rest[1:]


def _to(record: Record, surface: Surface, word: Word, at: tuple[float, float]) -> _Ends:
    """Return how cable goes to a thing: level, straight up or down, or along the top and down."""
    target = _point(record, surface, word)
    if abs(target[1] - at[1]) <= _LEVEL:
        return ((target[0], at[1]),)
    if abs(target[0] - at[0]) <= _LEVEL:
        return ((at[0], target[1]),)
    known = surface.height is not None and surface.kind in (SurfaceKind.WALL, SurfaceKind.OUTSIDE)
    if known and abs(at[1] - _under_top(surface, at[0])) <= _LEVEL:
        return (target[0], _under_top(surface, target[0])), target
    raise BadPlace(
        f"{word.text} is neither level with {at[0]:g} along, {at[1]:g} up, nor straight above or "
        f"below it. Go to {target[0]:g} along or {target[1]:g} up first, or up top."
    )


def _under_top(surface: Surface, x: float) -> float:
    """Return how high a cable is in the middle of the zone at the top [mm]."""
    if surface.height is None:
        raise BadPlace(f"Enter the height of {surface.name} first.")
    far = surface.height if surface.height_far is None else surface.height_far
    return top_at(x, surface.width or 0.0, surface.height, far) - _UNDER_TOP


def bored(record: Record, groups: tuple[Group, ...]) -> tuple[int, Hole]:
    """Return the number of a leg in its list, and the hole or notch that a line bores for it.

    Raises:
        BadPlace: If there is no such leg, or a figure is missing.
    """
    first = groups[0]
    at = next(
        (
            number
            for number, each in enumerate(record.fabric.legs)
            if each.id.casefold() == first[0].low
        ),
        None,
    )
    if at is None:
        raise BadPlace(f"There is no leg {first[0].text}. {_HOLE}")
    roles: dict[str, float] = {}
    for group in (first[1:], *groups[1:]):
        said = paired(group, ("hole", "notch", "at", "face", "span", "support", *_TIMBER))
        if said.figures or said.words:
            raise unknown([*(Word(each) for each in said.figures), *said.words], _HOLE)
        roles |= said.roles
    timbers = [each for each in _TIMBER if each in roles]
    notch = "notch" in roles
    face = roles.get("face", 0.0 if notch else None)
    size = roles.get("notch", roles.get("hole"))
    if len(timbers) != 1 or face is None or size is None or "at" not in roles:
        raise BadPlace(_HOLE)
    return at, Hole(
        timber=_TIMBER[timbers[0]],
        at=roles["at"],
        size=size,
        is_notch=notch,
        deep=roles[timbers[0]],
        from_face=face,
        span=roles.get("span"),
        from_support=roles.get("support"),
    )
