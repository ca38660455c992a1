"""Where cables and boxes are in the building: surfaces, places on them, legs of cable, the ground.

Lengths on a surface are in mm from its own corner: `along` it, and `up` from finished floor level.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from records.model.kinds import MOST_IN_LIST, Day, Depth, Id, In, Metres, Percent, Piece, Text
from records.terms import Word
from records.units import Unit

Across = Annotated[float, In(Unit.MILLIMETRE), Field(strict=True, ge=0, le=50_000)]
"""A distance on a surface [mm]."""
Thin = Annotated[float, In(Unit.MILLIMETRE), Field(strict=True, ge=0, le=1_000)]
"""A thickness or a depth in a wall [mm]."""
Wide = Annotated[float, In(Unit.MILLIMETRE), Field(strict=True, gt=0, le=10_000)]
"""Width or height of a box, a hole, a door [mm]."""


class SurfaceKind(Word):
    """What sort of surface it is."""

    WALL = "wall"
    OUTSIDE = "outside", "outside face"
    CEILING = "ceiling"
    SOFFIT = "soffit"
    FLOOR = "floor"


class Frame(Word):
    """What holds the surface up, behind its board."""

    TIMBER = "timber", "timber studs"
    METAL = "metal", "metal studs"
    MASONRY = "masonry", "brick or block"


class Lagging(Word):
    """Where thermal insulation lies, seen from the cable."""

    NONE = "none"
    ONE_SIDE = "one-side", "on one side of the cable"
    AROUND = "around", "all round the cable"


class Box(Word):
    """A kind of box or hole that a point sits in."""

    ONE_GANG = "1g", "one-gang"
    TWO_GANG = "2g", "two-gang"
    ROUND = "round", "round box"
    LAMP = "lamp", "downlight"
    BOARD = "board", "sub-board"
    JOINT = "joint", "joint box, hidden"
    """It can't be seen once covered: it makes no zone. A blank plate is one-gang."""
    FREE_JOINT = "mf", "maintenance-free joint, hidden"
    """One that may stay where nobody reaches it; it makes no zone either."""

    @property
    def is_hidden(self) -> bool:
        """Whether nobody sees it once its surface is covered."""
        return self in (Box.JOINT, Box.FREE_JOINT)


class Mark(Word):
    """Which part of a box its height is given to."""

    UNDERSIDE = "underside", "to its underside"
    CENTRE = "centre", "to its centre"


class Cover(Word):
    """What protects a cable that is less than 50 mm deep."""

    NONE = "none"
    PLATE = "plate", "earthed steel plate"
    CONDUIT = "conduit", "earthed steel conduit"


class Timber(Word):
    """A piece of the frame that a cable goes through."""

    STUD = "stud"
    JOIST = "joist"
    RAFTER = "rafter"


class Noted(Piece):
    """An entry that is as good as what could be seen when it was made."""

    entered: Day | None = Field(
        None, description="The day on which it was entered, or last changed."
    )
    memory: bool = Field(
        False, description="Whether its surface was covered already: it was entered from memory."
    )


class Photo(Piece):
    """A photograph of a surface while it could be seen."""

    file: Text = Field(description="Relative to the record.")
    note: Text = ""
    size: Annotated[int, Field(strict=True, ge=0)] = Field(0, description="Bytes.")
    sha256: Annotated[str, Field(strict=True, pattern=r"^[0-9a-f]{64}$")] | None = None
    small: (
        Annotated[str, Field(strict=True, max_length=60_000, pattern=r"^[A-Za-z0-9+/]*={0,2}$")]
        | None
    ) = Field(None, description="A small JPEG of it in base64, for the schedule.")


class Surface(Piece):
    """A wall, a ceiling, an outside face: measured from one corner and from finished floor."""

    id: Id
    name: Text = Field("", title="Surface", description="North wall, inside.")
    kind: SurfaceKind | None = Field(None, title="Kind")
    corner: Text = Field(
        "its left corner",
        title="Measured from",
        description="Seen by whoever faces it: its left corner; the door frame.",
    )
    width: Across | None = Field(None, title="Width")
    height: Across | None = Field(
        None,
        title="Height",
        description=("At the corner that is measured from; along the slope for a sloping ceiling."),
    )
    height_far: Across | None = Field(
        None,
        title="Height at the other end",
        description="Where the top slopes; empty: the same all along.",
    )
    thick: Thin | None = Field(
        None,
        title="Whole thickness",
        description=(
            "Of the wall with both its boards: at 100 mm or less, points on the other side count "
            "too."
        ),
    )
    other_side: Id | None = Field(
        None, title="Other side", description="The surface that is its back."
    )
    board: Thin | None = Field(
        None, title="Board thickness", description="Of the board or plaster that closes it."
    )
    frame: Frame | None = Field(None, title="Frame")
    centres: Thin | None = Field(None, title="Stud centres")
    first_stud: Across | None = Field(None, title="First stud at")
    frame_depth: Thin | None = Field(None, title="Depth of the studs")
    lagging: Lagging | None = Field(
        None,
        title="Thermal insulation",
        description="None; on one side of the cable; all round it.",
    )
    foil: bool | None = Field(None, title="Foil or metal lining")
    screw: Thin | None = Field(
        None,
        title="Length of the fixing screws",
        description="Of those that hold the board; from its face.",
    )
    covered: Day | None = Field(
        None,
        title="Covered on",
        description=("The day on which the board went on; what is entered later is from memory."),
    )
    photos: tuple[Photo, ...] = Field((), max_length=MOST_IN_LIST)
    memory: tuple[Text, ...] = Field(
        (),
        max_length=MOST_IN_LIST,
        description="The fields above that were changed after it was covered.",
    )


class Spot(Noted):
    """Where something is on a surface."""

    surface: Id = Field(title="Surface")
    along: Across = Field(title="Along", description="To its middle.")
    up: Across = Field(title="Up")
    to: Mark = Field(Mark.UNDERSIDE, title="Height is to")
    box: Box | None = Field(None, title="Box")
    width: Wide | None = Field(
        None, title="Width of the hole", description="Where the kind of box doesn't say it."
    )
    height: Wide | None = Field(None, title="Height of the hole")
    deep: Thin | None = Field(None, title="Depth of the box")
    hidden: bool = Field(
        False,
        title="Behind something fixed",
        description=(
            "A cupboard or a worktop hides it: nobody sees it from the room, and it makes no zone."
        ),
    )
    cut: bool | None = Field(
        None, title="Hole cut", description="Whether it was ticked off on the cut-out sheet."
    )


class Fixture(Piece):
    """Something on a surface that is no point of a circuit: the board, a joint box, a door."""

    id: Id
    name: Text = Field("", title="What")
    is_opening: bool = Field(
        False,
        description=(
            "Whether it is a door or a window: nothing is in it, and nothing runs through it."
        ),
    )
    spot: Spot


class Hole(Noted):
    """A hole or a notch in timber that a leg goes through."""

    timber: Timber
    at: Across = Field(description="Along the leg from its beginning.")
    size: Thin = Field(description="Diameter of a hole, depth of a notch [mm].")
    is_notch: bool = False
    deep: Thin = Field(
        description=(
            "Depth of the timber: of a joist from top to bottom, of a stud from face to face."
        )
    )
    from_face: Thin = Field(
        description="From the near face, or the top of a joist, to the near edge of the hole."
    )
    span: Across | None = Field(None, description="Of a joist or rafter between its supports.")
    from_support: Across | None = Field(
        None, description="Along it from the nearer support to the middle of the hole."
    )


class Leg(Noted):
    """A straight stretch of cable on or behind one surface."""

    id: Id
    circuit: Id | None = Field(None, description="Of which circuit; None: the feed.")
    run: Annotated[int, Field(strict=True, ge=0, le=40)] = Field(
        0, description="Which run of it, from 0."
    )
    surface: Id
    along: Across
    up: Across
    to_along: Across
    to_up: Across
    deep: Thin | None = Field(
        None,
        description=(
            "From the finished face to the cable; None: not known. 0: on the face, in sight."
        ),
    )
    cover: Cover = Cover.NONE
    clips: Thin | None = Field(None, description="How far apart its supports are.")
    bend: Thin | None = Field(None, description="Inside radius of its tightest bend.")
    holes: tuple[Hole, ...] = Field((), max_length=MOST_IN_LIST)

    @property
    def length(self) -> float:
        """How long it is [m]."""
        across, rise = self.to_along - self.along, self.to_up - self.up
        return float((across**2 + rise**2) ** 0.5) / 1000


class GroundCover(Word):
    """What lies over a cable outside."""

    SOIL = "soil"
    PAVING = "paving"
    DUCT = "duct"
    WALL = "wall", "on a wall, in sight"


class Buried(Piece):
    """A stretch of the feed, or of a circuit, in the ground or along a wall outside."""

    id: Id
    circuit: Id | None = None
    run: Annotated[int, Field(strict=True, ge=0, le=40)] = 0
    length: Metres
    deep: Depth | None = Field(None, description="Top of the cable below the surface [m].")
    cover: GroundCover | None = None
    tape: bool | None = Field(None, description="Whether warning tape or tiles lie above it.")
    from_what: Text = Field(
        "",
        description=(
            "Two fixed points that it is measured from: 1.2 m off the house wall, 3.4 m off the "
            "gate."
        ),
    )
    crosses: Text = Field("", description="Other services that it crosses, and which is above.")


class Fabric(Piece):
    """All that is known of where cables and boxes are."""

    surfaces: tuple[Surface, ...] = Field((), max_length=60)
    fixtures: tuple[Fixture, ...] = Field((), max_length=400)
    legs: tuple[Leg, ...] = Field((), max_length=2_000)
    buried: tuple[Buried, ...] = Field((), max_length=400)
    tails: Percent = Field(10.0, description="Added to the legs for tails, drops and bends.")
    dwelling: bool | None = Field(
        None,
        description=(
            "Whether it is a new dwelling: then heights of sockets and switches have a rule. An "
            "outbuilding nobody lives in has none."
        ),
    )
