"""Codes are stored, words are shown: what is reworded never touches a record file."""

from __future__ import annotations

import json
from datetime import UTC, datetime

import pytest

from records.errors import BadRecord
from records.model.reading import Quantity, Remedy
from records.model.record import Record
from records.older_words import codes_of, current_key
from records.store.exchange import from_json, to_json
from records.terms import Cpc, DeviceKind, Form, OutbuildingEarth, Stage, Verdict, Word

AT = datetime(2026, 3, 5, 9, 0, tzinfo=UTC)


def kinds() -> list[type[Word]]:
    found, wait = [], [Word]
    while wait:
        for each in wait.pop().__subclasses__():
            found.append(each)
            wait.append(each)
    return found


def test_what_is_stored_is_a_code_and_what_is_shown_are_words() -> None:
    record = Record.model_validate({"board": {"earth": "exported"}})
    assert record.board.earth is OutbuildingEarth.CARRIED_OVER
    assert json.loads(to_json(record))["board"]["earth"] == "exported"
    assert f"{record.board.earth}" == str(record.board.earth) == "exported through the feed"
    assert json.dumps(Stage.DEAD) == '"dead"'


def test_words_that_are_shown_now_are_no_code() -> None:
    for word in ("exported through the feed", "Exported", 3, None.__class__, ["exported"]):
        with pytest.raises(BadRecord, match="exported; electrode"):
            from_json(json.dumps({"format": 3, "board": {"earth": word}}, default=str))


@pytest.mark.parametrize(
    ("kind", "older", "now"),
    [
        (DeviceKind, "circuit-breaker type B", DeviceKind.BREAKER_B),
        (Cpc, "nothing: the earth is not carried over", Cpc.NONE),
        (Form, "radial to a fused connection unit", Form.FCU),
        (Stage, "live tests", Stage.LIVE),
        (Quantity, "operates as meant", Quantity.FUNCTION),
    ],
)
def test_words_of_older_files_are_read(kind: type[Word], older: str, now: Word) -> None:
    assert kind.known()[older] is now
    assert older not in {each.code for each in kind}


def test_every_older_word_leads_to_a_choice_and_no_code_is_used_twice() -> None:
    for kind in kinds():
        codes = [each.code for each in kind]
        assert len(set(codes)) == len(codes)
        assert set(codes_of(kind.__name__).values()) <= set(codes)


def test_codes_of_new_terms_are_short_and_plain() -> None:
    """Trade symbols (R1+R2, TN-C-S, Ze) are codes as they are."""
    stored = [Cpc, DeviceKind, Form, OutbuildingEarth, Stage, Verdict]
    for each in (choice for kind in stored for choice in kind):
        assert each.code == each.code.casefold()
        assert " " not in each.code
        assert len(each.code) <= 20


def test_a_remedy_of_an_older_record_still_belongs_to_its_finding() -> None:
    older = "circuit/C2/-/dead tests/insulation L-E"
    remedy = Remedy(id="D1", finding=older, done="a screw drawn", at=AT)
    assert remedy.finding == "circuit/C2/-/dead/ir-le" == current_key(older)
    assert current_key("circuit/C2/-/design/voltage drop") == "circuit/C2/-/design/voltage drop"
