"""What a list of answers says beside each is about that answer."""

from __future__ import annotations

import pytest

from records.entering.model_fields import fields_of
from records.model.wiring import Rcd, Run
from records.terms import Method, RcdType


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (RcdType.AC, "a.c. only"),
        (RcdType.A, "pulsating d.c."),
        (RcdType.B, "smooth d.c."),
    ],
)
def test_types_of_rcd_are_told_by_the_currents_they_see(kind: RcdType, words: str) -> None:
    """IEC 60755 (from memory): AC sinusoidal, A also pulsating d.c., B also smooth d.c."""
    (row,) = fields_of(Rcd(), "/board/rcd", ["type"])

    assert words in {option.value: option.note for option in row.options}[kind]


@pytest.mark.parametrize(
    ("method", "words"),
    [
        (Method.A, "insulated wall"),
        (Method.B, "trunking on a wall"),
        (Method.C, "clipped direct"),
        (Method.D, "ground"),
        (Method.E, "free air"),
    ],
)
def test_methods_are_told_by_where_the_cable_lies(method: Method, words: str) -> None:
    """BS 7671 Appendix 4, Table 4A2 (from memory)."""
    (row,) = fields_of(Run(), "/feed/runs/0", ["method"])

    assert words in {option.value: option.note for option in row.options}[method]
