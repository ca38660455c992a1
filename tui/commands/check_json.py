"""A review as data for other programs."""

from __future__ import annotations

import math
from collections import Counter
from pathlib import Path
from typing import Any

from records.expected.results import Result, Worked
from records.judgement.remedy.smallest_change import Mends
from records.judgement.review_types import Judged, Limit, Review
from records.judgement.trust import from_memory
from records.judgement.wording import in_full
from records.model.slots import measured_by
from records.store.record_in import Found
from records.store.showing import file_name
from records.tables.edition import limits_from
from records.terms import Verdict


def as_data(file: Path, found: Found, review: Review) -> dict[str, Any]:
    """Return a review as JSON values, as `check_schema` publishes them.

    Args:
        file: Where the record was read.
        found: The record.
        review: Its review.
    """
    count = Counter(each.verdict for each in review.lines)
    job, mends = found.record.job, Mends(found.record)
    return {
        "file": file_name(file),
        "fingerprint": found.fingerprint or None,
        "reference": job.reference,
        "edition": limits_from(),
        "edition_entered": job.edition,
        "is_certificate": False,
        "counts": {verdict.code: count[verdict] for verdict in Verdict},
        "findings": [_judged(mends, each) for each in review.findings],
        "others": [_judged(mends, each) for each in review.lines if not each.is_finding],
        "settled": [each.model_dump(mode="json") for each in review.settled],
    }


def _judged(mends: Mends, each: Judged) -> dict[str, Any]:
    return {
        "key": each.key,
        "verdict": each.verdict.code,
        "part": each.place.part.code,
        "circuit": each.place.circuit,
        "point": each.place.point,
        "stage": each.slot.stage.code if each.slot else None,
        "quantity": each.slot.quantity.code if each.slot else None,
        "design": each.what.code if each.what else None,
        "title": each.title,
        "harm": each.harm.words,
        "why": each.why,
        "patterns": list(each.patterns),
        "part_of": each.part_of or None,
        "life": each.life.value if each.life else None,
        "anew": each.judged_again,
        "readings": [
            {
                "id": taken.id,
                "at": taken.at.isoformat(),
                "from_notes": taken.from_notes.isoformat() if taken.from_notes else None,
                "test_voltage": taken.test_voltage,
                "method": taken.method,
                "said": in_full(taken.taken, measured_by(taken.slot)),
                "verdict": each.stood[at].verdict.code if each.stood else each.verdict.code,
                "causes": list(each.stood[at].causes if each.stood else each.causes),
                "out_of_calibration": bool(each.meter_mark) and at == len(each.attempts) - 1,
                **taken.taken.model_dump(mode="json"),
            }
            for at, taken in enumerate(each.attempts)
        ],
        "expected": _result(each.expected),
        "limit": _limit(each.limit),
        "causes": list(each.causes),
        "next_check": each.next_check,
        "mends": [{"change": mend.change, "then": mend.result} for mend in mends.of(each)],
        "source": str(each.source) if each.source else None,
        "from_memory": list(from_memory(each)),
        "remedies": [remedy.model_dump(mode="json") for remedy in each.remedies],
    }


def _result(result: Result | None) -> dict[str, Any] | None:
    if result is None:
        return None
    if not isinstance(result, Worked):
        return {"said": str(result), "value": None, "unit": None}
    return {
        "said": str(result),
        "value": _finite(result.value),
        "unit": result.unit.value,
        "formula": result.formula,
        "put_in": result.put_in,
        "sources": [str(source) for source in result.sources],
    }


def _limit(limit: Limit | None) -> dict[str, Any] | None:
    if limit is None:
        return None
    return {
        "said": str(limit),
        "sense": limit.sense.value,
        "value": _finite(limit.value),
        "upper": None if limit.upper is None else _finite(limit.upper),
        "unit": limit.unit.value,
        "source": str(limit.source),
    }


def _finite(value: float) -> float | None:
    """Return a number that JSON can say; “not assured” is no number."""
    return value if math.isfinite(value) else None
