"""What to do about a load, a device and a cable that don't fit: never a device above Iz."""

from __future__ import annotations

from records.expected.results import What, Worked
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.wiring import Device
from records.tables import devices
from records.terms import Verdict


def load_advice(facts: Facts, device: Device, found: Judged) -> Judged:
    """Return the check Ib ≤ In with advice that the cable allows.

    A larger device is named as a way only where one of standard rating lies between Ib and Iz:
    above Iz it would let the cable burn (Regulation 433.1.1).

    Args:
        facts: The record.
        device: The one of the feed or circuit.
        found: The check.
    """
    if found.verdict is not Verdict.OUTSIDE:
        return found
    capacity, load = facts.design(found.place, What.IZ), found.expected
    if not isinstance(capacity, Worked) or not isinstance(load, Worked):
        words = "Calculate the load again. No larger device before Iz of the cable is known."
    elif device.kind is not None and any(
        load.value - SLACK <= rating <= capacity.value + SLACK
        for rating in devices.ratings(device.kind)
    ):
        words = f"Calculate the load again. A larger device must be at most {capacity} (Iz)."
    else:
        words = f"No larger device: this cable carries {capacity}."
        words += " Thicker cable first, or less load."
    return found._replace(next_check=do(Act.PLAN, words).text())


def cable_advice(facts: Facts, found: Judged) -> Judged:
    """Return the check In ≤ Iz with advice that the load allows.

    Args:
        facts: The record.
        found: The check.
    """
    load, capacity = facts.design(found.place, What.IB), found.expected
    if found.verdict is not Verdict.OUTSIDE:
        return found
    if not isinstance(load, Worked) or not isinstance(capacity, Worked):
        return found
    if load.value <= capacity.value + SLACK:
        return found
    words = f"Thicker cable first, or less load: {load} is more than this cable carries."
    return found._replace(next_check=do(Act.PLAN, words).text())
