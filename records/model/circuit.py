"""A final circuit of the sub-board."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import Amperes, Distance, Id, KiloWatts, Piece, Text
from records.model.wiring import Device, Rcd, Run
from records.terms import Form, Use


class Point(Piece):
    """An outlet, lamp or connection on a circuit where readings are taken."""

    id: Id
    name: Text = Field("", title="Point")
    """How you find it: S1 by the door."""
    room: Text = Field("", title="Room or place")
    """Where in or at the outbuilding: store; outside, west wall. What is still missing is listed
    room by room."""
    at: Distance | None = Field(None, title="Distance from the board")
    """Along the cable; on a ring, round it from the first leg."""
    spur: Distance | None = Field(None, title="Spur")
    """Length of a spur off the ring to this point; empty if it is on the ring."""


class Circuit(Piece):
    """One final circuit."""

    id: Id
    name: Text = Field("", title="Name")
    """What it feeds: sockets along the bench."""
    use: Use | None = Field(None, title="Use")
    form: Form | None = Field(None, title="Form")
    device: Device = Device.blank()
    rcd: Rcd = Rcd.blank()
    load: Amperes | None = Field(None, title="Ib")
    """Design current in ampere; empty: from the load in kW, or In for a socket circuit."""
    power: KiloWatts | None = Field(None, title="Load")
    """Connected load in kW, if that is what you know."""
    fuse: Amperes | None = Field(None, title="Fuse in connection unit")
    """Rating of the BS 1362 fuse: 3 A or 13 A."""
    outdoors: bool | None = Field(None, title="Feeds anything outdoors")
    """Outdoor lamps and sockets count: 30 mA protection, and PME needs thought."""
    hidden: bool | None = Field(None, title="Hidden under 50 mm deep")
    """In a wall or partition, less than 50 mm from a surface and without metal protection."""
    runs: tuple[Run, ...] = ()
    points: tuple[Point, ...] = ()
