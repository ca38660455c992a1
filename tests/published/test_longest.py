"""Longest lengths of circuits as a guide prints them, against the options of a circuit.

IET On-Site Guide, longest circuits, TN-C-S, Ze 0.35 Ω, type B (from memory): 20 A radial of
2.5/1.5 mm² 33 m, 32 A ring of 2.5/1.5 mm² 106 m, both by voltage drop of 5 %. The guide lets a
conductor that isn't fully loaded run cooler (BS 7671, Appendix 4, section 6.1); here it is taken at
its operating temperature, which gives lengths up to 8 % shorter: on the safe side.
"""

from __future__ import annotations

import pytest

from records.options.cell import Check
from records.options.circuit import METRES, circuit_options
from records.terms import Form
from tests.expected.jobs import XLPE, circuit, device, job, ring, run


@pytest.mark.parametrize(
    ("form", "rating", "printed"), [(Form.RADIAL, 20.0, 33.0), (Form.RING, 32.0, 106.0)]
)
def test_the_longest_length_is_a_little_under_what_the_guide_prints(form, rating, printed):
    own = circuit(device=device(rating=rating)) if form is Form.RADIAL else ring(points=[])
    record = job(
        origin={
            "earthing": "TN-C-S",
            "ze": 0.35,
            "fault_current": 1.2,
            "ze_ground": "measured",
            "fault_current_ground": "measured",
        },
        feed={"device": device(rating=100.0), "load": 20.0, "runs": [run(XLPE, 95.0, 0.1)]},
        circuits=[own],
    )
    found = next(
        each
        for each in circuit_options(record, "C1").options
        if (each.form, each.csa, each.rating) == (form, 2.5, rating)
    )

    assert printed / 1.08 - METRES <= found.longest <= printed
    longer = circuit_options(record, "C1", radial=found.longest + METRES)
    if form is Form.RADIAL:
        stopped = next(
            each
            for each in longer.options
            if (each.form, each.csa, each.rating) == (form, 2.5, rating)
        )
        assert stopped.decides.check is Check.DROP
