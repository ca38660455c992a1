"""What somebody noticed of an installation in use, before or between the tests."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import Id, Piece, Text
from records.terms import Symptom


class Noticed(Piece):
    """One thing that was noticed, of a circuit or of the whole outbuilding."""

    id: Id
    kind: Symptom | None = Field(
        None,
        title="Noticed in use",
        description=("What it does that it shouldn't; it joins the findings that it belongs to."),
    )
    circuit: Id | None = Field(
        None, description="Id of the circuit; None: the whole outbuilding, or nobody knows which."
    )
    note: Text = Field(
        "",
        title="When and where",
        description="In a few words: the socket by the door, after two days of rain.",
    )
