"""Bad input, field by field: refused with a sentence, or kept and named by all that lacks it."""

import json

import pytest
from pydantic import ValidationError

from records.expected.context import FEED, circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What, Worked
from records.model.record import Record
from records.store.messages import explained
from tests.expected.jobs import FLAT, XLPE, circuit, device, job, run

LENGTH = "0 m is not possible; it must be more than 0 and at most 2,000 m."
CSA = "0 mm² is not possible; it must be more than 0 and at most 300 mm²."
RATING = "0 A is not possible; it must be more than 0 and at most 1,000 A."
COLD = "-10.5 °C is not possible; it must be at least -10 and at most 40 °C."
HOT, FROST = (
    f"{value} °C is not possible; it must be at least -10 and at most 80 °C."
    for value in ("80.5", "-10.5")
)
WARM = "40.5 °C is not possible; it must be at least -10 and at most 40 °C."


@pytest.mark.parametrize(
    ("parts", "field", "said"),
    [
        ({"circuits": [circuit(runs=[run(length=0.0)])]}, "Length", LENGTH),
        ({"feed": {"runs": [run(length=0.0)]}}, "Length", LENGTH),
        ({"circuits": [circuit(runs=[run(csa=0.0)])]}, "Line conductor", CSA),
        ({"circuits": [circuit(runs=[run(cpc_csa=0.0)])]}, "cpc size", CSA),
        ({"circuits": [circuit(device=device(rating=0.0))]}, "In", RATING),
        ({"circuits": [circuit(runs=[run(ambient=80.5)])]}, "Ambient temperature", HOT),
        ({"circuits": [circuit(runs=[run(ambient=-10.5)])]}, "Ambient temperature", FROST),
        ({"job": {"ambient": 40.5}}, "Temperature at the tests", WARM),
        ({"job": {"ambient": -10.5}}, "Temperature at the tests", COLD),
    ],
)
def test_what_can_not_be_is_refused_at_the_field_with_what_would_be_right(parts, field, said):
    with pytest.raises(ValidationError) as refused:
        Record.model_validate_json(json.dumps(parts))

    message = explained(refused.value, parts)
    assert field in message
    assert message.endswith(said)


LOOPS = [What.R1_R2, What.ZS, What.FAULT_LOWEST, What.TIME, What.FAULT_LE]
BY_CSA = [*LOOPS, What.IZ, What.VOLT_DROP, What.CPC_SIZE, What.CPC_LEAST, What.FAULT_LN]
BY_LENGTH = [*LOOPS, What.VOLT_DROP, What.FAULT_LN]
BY_RATING = [What.ZS_LIMIT, What.ZS_LIMIT_COLD, What.TIME]
NO_3 = "3 mm² is no tabulated size of"


@pytest.mark.parametrize(
    ("final", "why", "lost"),
    [
        (circuit(runs=[run(FLAT, 3.0)]), f"{NO_3} flat twin-and-earth", BY_CSA),
        (circuit(runs=[run(XLPE, 3.0)]), f"{NO_3} steel-wire armoured", BY_CSA),
        (circuit(runs=[run(cpc="a separate conductor", cpc_csa=3.0)]), f"{NO_3} copper", LOOPS),
        (circuit(runs=[run(csa=None)]), "the line's cross-section is not entered", BY_CSA),
        (circuit(runs=[run(length=None)]), "the length is not entered", BY_LENGTH),
        (circuit(runs=[run(cpc=None)]), "what serves as cpc is not entered", LOOPS),
        (circuit(device=device(rating=33.0)), "type B of 33 A is made; there are", BY_RATING),
        (circuit(device=device("BS 88-3 fuse", 33.0)), "fuse of 33 A is made", BY_RATING),
        (circuit(device=device("BS 3036 fuse", 33.0)), "fuse of 33 A is made", BY_RATING),
        (circuit(device=device(rating=None)), "In of the protective device", BY_RATING),
        (circuit(runs=[run(grouped=40)]), "40 is beyond it (Circuits, C1, run 1)", [What.IZ]),
    ],
)
def test_what_is_kept_but_not_known_is_named_and_all_else_is_still_worked_out(final, why, lost):
    good = expected(job(circuits=[circuit(), circuit("C2")]))
    record = job(circuits=[final, circuit("C2")])
    result = expected(record)
    here = circuit_place(record.circuits[0])

    for what in lost:
        found = result.design[here, what]
        assert isinstance(found, NotWorkedOut), (what, found)
        assert why in found.why, (what, found.why)
        assert str(found).startswith("not calculated: ")
    for (place, what), found in result.design.items():
        if place == here and isinstance(found, NotWorkedOut):
            assert why in found.why or "no RCD" in found.why, (what, found.why)
        elif place not in (here, FEED):
            assert isinstance(found, Worked) == isinstance(good.design[place, what], Worked)
    assert isinstance(result.design[here, What.FAULT_HIGHEST], Worked)
    for slot, found in result.meter.items():
        if slot.place.circuit != "C1":
            assert found == good.meter[slot], slot


def test_a_size_not_made_in_the_feed_is_named_by_the_circuits_and_leaves_what_is_theirs():
    feed = {"device": device("BS 88-3 fuse"), "load": 25.0, "runs": [run(XLPE, 3.0)]}
    record = job(feed=feed)
    design = expected(record).design
    here = circuit_place(record.circuits[0])

    for what in (What.ZS, What.VOLT_DROP, What.TIME, What.FAULT_HIGHEST):
        found = design[here, what]
        assert isinstance(found, NotWorkedOut)
        assert f"{NO_3} steel-wire armoured" in found.why
        assert "(Feed, run 1)" in found.why
    for what in (What.R1_R2, What.IZ, What.IB, What.ZS_LIMIT, What.TIME_REQUIRED):
        assert isinstance(design[here, what], Worked), what
    assert isinstance(design[FEED, What.ZS_LIMIT], Worked)
