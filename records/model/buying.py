"""What a person settles before anything is bought."""

from __future__ import annotations

from pydantic import Field

from records.model.kinds import Percent, Piece, Text


class Buying(Piece):
    """How the cable of the feed is chosen, and what is bought; no verdict rests on it."""

    room: Percent | None = Field(
        None,
        title="Room for later load",
        description="How much the load may grow before the feed is too small. Empty: 25 %.",
    )
    allowance: Percent | None = Field(
        None,
        title="Cable allowance",
        description=(
            "How much more cable is bought than is entered, for ends and mistakes. Empty: 10 %."
        ),
    )
    print_why: bool | None = Field(
        None,
        title="Print why this cable",
        description=(
            "Yes: the schedule says which check decides for the cable of the feed, and what the "
            "sizes beside it lack."
        ),
    )
    why: Text = Field(
        "",
        title="Why this cable",
        description="In your own words, for whoever confirms the design.",
    )
