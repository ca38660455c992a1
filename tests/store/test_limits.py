"""What a file may hold at most, what may be taken back when, and what differs in words."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from pydantic import BaseModel

from records.errors import BadRecord
from records.model.fabric import Fabric
from records.model.field_types import models_of
from records.model.reading import CautionRead, Figure, Left, LiveGate, Reading
from records.model.record import Record
from records.store import exchange
from records.store.canonical import digest
from records.store.chain import BrokenChain, Change, Fold
from records.store.container import connect_privately
from records.store.difference_words import difference
from records.store.exchange import from_json, to_json
from records.store.file import RecordFile
from records.store.state import limits
from records.store.strict_json import Unfit, check_shape
from records.terms import Stage
from tests.judgement.fabric.walls import LEVEL, WALL
from tests.taking.job import small_job, with_figure
from tests.taking.locks import ZDB, ZS2, at_minute, job, without

NOW = datetime(2026, 3, 16, 9, 0, tzinfo=UTC)


def test_a_record_of_just_the_largest_size_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    text = to_json(small_job())
    monkeypatch.setattr(exchange, "LARGEST", len(text))
    assert from_json(text) == small_job()

    with pytest.raises(BadRecord, match="too large for a record"):
        from_json(f"{text} ")


def nested(levels: int) -> Any:
    inner: Any = 0
    for _ in range(levels):
        inner = {"a": inner}
    return inner


@pytest.mark.parametrize(
    ("good", "bad", "says"),
    [
        (
            {f"f{number}": 0 for number in range(60)},
            {f"f{number}": 0 for number in range(61)},
            "61 fields",
        ),
        ({"any": {"in": [0] * 400}}, {"any": {"in": [0] * 401}}, "too many entries; 400"),
        ({"some": [0] * 7}, {"some": [0] * 8}, "too many entries; 7"),
        ({"other": [0] * 400}, {"other": [0] * 401}, "too many entries; 400"),
        ({"in": {"it": [0] * 9}}, {"in": {"it": [0] * 10}}, "too many entries; 9"),
        ({"in": [{"it": [0] * 9}]}, {"in": [{"it": [0] * 10}]}, "too many entries; 9"),
        (nested(21), nested(22), "nested too deep"),
    ],
)
def test_more_than_any_record_has_is_refused_and_as_much_is_not(
    good: dict[str, Any], bad: dict[str, Any], says: str
) -> None:
    assert check_shape(good, {("some",): 7, ("in", "it"): 9}) > 1
    with pytest.raises(Unfit, match=says):
        check_shape(bad, {("some",): 7, ("in", "it"): 9})


def test_the_values_of_a_record_are_counted() -> None:
    assert check_shape({"a": 1, "b": [1, 2]}, {}) == 5  # the whole, two fields, two entries


def test_every_list_of_a_record_has_an_end_that_is_the_same_as_it_is_read_and_written() -> None:
    """What the model lets be written and the reader refuses is a file that nobody opens again."""
    known = limits()
    models: list[tuple[type[BaseModel], tuple[str, ...]]] = [(Record, ())]
    count = 0
    while models:
        model, path = models.pop()
        for name, field in model.model_fields.items():
            here = (*path, name)
            if "tuple[" in str(field.annotation):
                count += 1
                assert here in known, f"{here} may grow without an end"
            models += [(each, here) for each in models_of(field.annotation)]
    assert count > 20


@pytest.mark.parametrize("name", ["cautions_read", "left", "live_gate", "readings"])
@pytest.mark.parametrize("more", [400, 401, 1500])
def test_a_job_of_many_days_is_opened_again(tmp_path: Path, name: str, more: int) -> None:
    """A caution is read every few hours before each test: on a large job far more than 400."""
    made = {
        "cautions_read": lambda at: CautionRead(key="k", before=ZS2, at=at_minute(at)),
        "left": lambda at: Left(at=at_minute(at), off=True),
        "live_gate": lambda at: LiveGate(at=at_minute(at), isolation_understood=True),
        "readings": lambda at: Reading(
            id=f"R{at + 1}", slot=ZS2, taken=Figure(value=1.2), at=at_minute(at)
        ),
    }[name]
    entries = [made(at) for at in range(more)]
    record = small_job().model_copy(update={name: tuple(entries[:-1])})
    path = tmp_path / "job.farboard"
    with RecordFile.create(path, record) as file:
        last = entries[-1].model_dump(mode="json")
        file.change([{"op": "add", "path": f"/{name}/-", "value": last}])
    with RecordFile.open(path) as again:
        assert len(getattr(again.record, name)) == more


def test_as_many_legs_of_cable_as_may_be_entered_are_read_again() -> None:
    legs = tuple(LEVEL.model_copy(update={"id": f"L{number}"}) for number in range(1, 402))
    record = small_job().model_copy(update={"fabric": Fabric(surfaces=(WALL,), legs=legs)})

    assert from_json(to_json(record)) == record


def followed(*changes: tuple[list[dict[str, Any]], int | None]) -> Fold:
    """Return a chain that was followed through some changes, each with what it takes back."""
    fold = Fold()
    for number, (ops, undoes) in enumerate(changes, start=1):
        body = Change(number, NOW, "A", tuple(ops), undoes).body
        fold.take(body, digest(fold.digest, body))
    return fold


def put(place: str) -> list[dict[str, Any]]:
    return [{"op": "replace", "path": "/job/place", "value": place}]


FIRST = ([{"op": "add", "path": "", "value": {"job": {"place": "a"}}}], None)
TWO = (FIRST, (put("b"), None), (put("c"), None))


def test_the_last_change_is_taken_back_first_and_made_again_first() -> None:
    assert followed(*TWO).undoable == [2, 3]
    back = followed(*TWO, (put("b"), 3))
    assert (back.doc["job"]["place"], back.undoable, back.redoable) == ("b", [2], [4])
    both = followed(*TWO, (put("b"), 3), (put("a"), 2))
    assert (both.doc["job"]["place"], both.undoable, both.redoable) == ("a", [], [4, 5])
    again = followed(*TWO, (put("b"), 3), (put("a"), 2), (put("b"), 5))
    assert (again.doc["job"]["place"], again.undoable, again.redoable) == ("b", [6], [4])
    new = followed(*TWO, (put("b"), 3), (put("x"), None))
    assert (new.undoable, new.redoable) == ([2, 5], [])


@pytest.mark.parametrize(
    "forged",
    [
        (put("a"), 2),  # not its turn: the third is to be taken back first
        (put("a"), 3),  # its turn, and something else than what it was before
        (put("b"), 1),  # the record itself
        (put("b"), 9),
        ([], 3),
    ],
)
def test_nothing_is_taken_back_out_of_turn_or_into_something_else(
    forged: tuple[list[dict[str, Any]], int],
) -> None:
    with pytest.raises(BrokenChain, match="takes back what was never done"):
        followed(*TWO, forged)


def test_a_change_that_was_taken_back_is_made_again_in_turn_only() -> None:
    undone = (*TWO, (put("b"), 3), (put("a"), 2))

    with pytest.raises(BrokenChain, match="takes back what was never done"):
        followed(*undone, (put("c"), 4))
    fold = followed(FIRST)
    body = Change(3, NOW, "A", tuple(put("b")), None).body
    with pytest.raises(BrokenChain, match="out of order"):
        fold.take(body, digest(fold.digest, body))


def test_a_database_in_memory_is_used_by_whichever_thread_has_it() -> None:
    """The wizard opens a file in one thread and writes it in another."""
    link = connect_privately(None)
    found: list[object] = []

    def use() -> None:
        try:
            found.extend(link.execute("SELECT 1").fetchone())
        except Exception as error:
            found.append(error)

    thread = Thread(target=use)
    thread.start()
    thread.join()
    link.close()
    assert found == [1]


def test_what_differs_is_said_the_first_and_how_many_more() -> None:
    record = small_job()
    ze = record.model_copy(update={"origin": record.origin.model_copy(update={"ze": 0.35})})
    place = ze.model_copy(update={"job": ze.job.model_copy(update={"place": "Barn"})})

    def words(before: Record, after: Record) -> str:
        return difference(before, after)

    assert words(record, record) == "nothing differs"
    assert words(record, ze).startswith("Origin, Ze: now 0.35")
    assert words(record, place).endswith("and 1 more")
    one = with_figure(record, ZS2, 1.2)
    assert ZS2.stage is Stage.LIVE
    assert words(record, one) == "Live tests, C2 Light [loft], Zs: now 1.20 Ω"
    assert words(one, record) == "Live tests, C2 Light [loft], Zs: 1.20 Ω"
    two = with_figure(one, ZDB, 0.43)
    assert words(record, two).endswith("now 1.20 Ω and 1 more")
    also = one.model_copy(update={"job": place.job})
    assert words(record, also).endswith("and 1 more")
    assert words(job(), job(without(ZS2))) == "nothing differs"


def test_a_list_that_is_full_says_so_before_anything_is_written(tmp_path: Path) -> None:
    record = small_job()
    people = [{"id": f"A{number}", "name": "x"} for number in range(1, 402)]
    path = tmp_path / "job.farboard"
    with RecordFile.create(path, record) as file:
        with pytest.raises(BadRecord, match="400"):
            file.change([{"op": "replace", "path": "/job/people", "value": people}])
        assert file.record == record
