"""A final circuit of the sub-board."""

from __future__ import annotations

from pydantic import Field

from records.model.fabric import Spot
from records.model.kinds import MOST_IN_LIST, Amperes, Distance, Id, KiloWatts, Piece, Text
from records.model.wiring import Device, Rcd, Run
from records.terms import Form, LoadKind, Use


class Point(Piece):
    """An outlet, lamp or connection on a circuit where readings are taken."""

    id: Id
    name: Text = Field("", title="Point", description="How you find it: S1 by the door.")
    room: Text = Field(
        "",
        title="Room or place",
        description=(
            "Where in or at the outbuilding: store; outside, west wall. What is still missing is "
            "listed room by room."
        ),
    )
    at: Distance | None = Field(
        None,
        title="Distance from the board",
        description="Along the cable; on a ring, round it from the first leg.",
    )
    spur: Distance | None = Field(
        None,
        title="Spur",
        description="Length of a spur off the ring to this point; empty if it is on the ring.",
    )
    load: Amperes | None = Field(
        None,
        title="Load here, in A",
        description=(
            "What this point draws. Voltage drop takes it here; the rest of Ib at the furthest "
            "point."
        ),
    )
    power: KiloWatts | None = Field(
        None,
        title="Load here, in kW",
        description="The same from its rating: 10 W for a lamp. Type one of both.",
    )
    fuse: Amperes | None = Field(
        None,
        title="Fuse of its connection unit",
        description=(
            "For what hangs on a fused spur: 3 A or 13 A. Behind it there may be several sockets."
        ),
    )
    cpc_ends: bool | None = Field(
        None,
        title="cpc ends before it",
        description="Whether the protective conductor stops at a box before this point.",
    )
    spot: Spot | None = Field(None, title="Where it is", description="Where it is on a surface.")


class Circuit(Piece):
    """One final circuit."""

    id: Id
    name: Text = Field("", title="Name", description="What it feeds: sockets along the bench.")
    use: Use | None = Field(None, title="Use")
    form: Form | None = Field(None, title="Arrangement")
    device: Device = Device.blank()
    rcd: Rcd = Rcd.blank()
    load: Amperes | None = Field(
        None,
        title="Ib",
        description=(
            "Design current in ampere; empty: from the load in kW, or In for a socket circuit."
        ),
    )
    power: KiloWatts | None = Field(
        None, title="Load", description="Connected load in kW, if that is what you know."
    )
    kind: LoadKind | None = Field(
        None,
        title="Kind of load",
        description=(
            "Sets what a household's diversity lets the feed count of it: in full where none is "
            "known."
        ),
    )
    starting: Amperes | None = Field(
        None,
        title="Starting current",
        description=(
            "Of the motor, in ampere, from its plate or its maker: a breaker may open on it."
        ),
    )
    cooker_socket: bool | None = Field(
        None,
        title="Socket on the cooker control",
        description="It adds 5 A to what the feed counts.",
    )
    together: bool | None = Field(
        None,
        title="On with the others",
        description=(
            "Whether this can be on at the same time as the others. Not said counts as on."
        ),
    )
    fuse: Amperes | None = Field(
        None,
        title="Fuse in connection unit",
        description="Rating of the BS 1362 fuse: 3 A or 13 A.",
    )
    outdoors: bool | None = Field(
        None,
        title="Feeds anything outdoors",
        description=("Outdoor lamps and sockets count: 30 mA protection, and PME needs thought."),
    )
    hidden: bool | None = Field(
        None,
        title="Concealed < 50 mm deep",
        description=(
            "In a wall or partition, less than 50 mm from a surface and without metal protection."
        ),
    )
    runs: tuple[Run, ...] = Field((), max_length=MOST_IN_LIST)
    points: tuple[Point, ...] = Field((), max_length=MOST_IN_LIST)
