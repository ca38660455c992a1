"""Parts that are kept while nothing that they looked at is another."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

import pytest

from records.demo import demo_record
from records.model.record import Record
from records.model.record_view import seen_by
from records.reuse import Reuse

pytestmark = pytest.mark.slow


def kept(*wholes: dict[str, int], work: Callable[[Mapping[str, int]], object]) -> list[object]:
    """Return what a part gives for one map after another, and how often it was worked out."""
    reuse, given, done = Reuse(), [], [0]

    def counted(numbers: Mapping[str, int]) -> object:
        done[0] += 1
        return work(numbers)

    for whole in wholes:
        numbers = reuse.now("numbers", whole)
        given.append(reuse.once("part", partial(counted, numbers)))
    return [*given, done[0]]


LOOKS: dict[str, Callable[[Mapping[str, int]], object]] = {
    "[]": lambda numbers: numbers["a"],
    "get": lambda numbers: numbers.get("a"),
    "in": lambda numbers: "a" in numbers,
    "values": lambda numbers: sum(numbers.values()),
    "items": lambda numbers: dict(numbers.items()),
    "keys": lambda numbers: list(numbers.keys()),
    "for": lambda numbers: [numbers[each] for each in numbers],
    "len": len,
    "==": lambda numbers: numbers == {"a": 1000},
}


@pytest.mark.parametrize("look", LOOKS)
def test_a_part_is_worked_out_again_when_what_it_looked_at_is_another(look):
    before, after = {"a": 1000, "b": 2000}, {"b": 2000}

    assert kept(before, after | {"a": 3000}, work=lambda seen: (LOOKS["for"](seen), 0))[-1] == 2
    first, second, _ = kept(before, after, work=lambda seen: _or_none(LOOKS[look], seen))
    assert (first, second) == (_or_none(LOOKS[look], before), _or_none(LOOKS[look], after))


def _or_none(look: Callable[[Mapping[str, int]], object], numbers: Mapping[str, int]) -> object:
    try:
        return look(numbers)
    except KeyError:
        return None


def test_a_part_is_kept_while_only_other_things_change():
    one = {"a": 1000, "b": 2000}

    assert kept(one, one | {"b": 3000}, work=LOOKS["[]"]) == [1000, 1000, 1]


def test_who_asks_for_a_part_rests_on_what_it_asked_for_even_if_it_was_known():
    reuse = Reuse()
    for value in (1000, 2000):
        numbers = reuse.now("numbers", {"a": value})
        inner = partial(reuse.once, "inner", partial(numbers.get, "a"))
        inner()

        assert reuse.once("outer", inner) == value


def test_who_goes_on_after_an_error_rests_on_what_was_asked_before_it():
    reuse = Reuse()
    for value in (None, 2000):
        numbers = reuse.now("numbers", {} if value is None else {"a": value})
        inner = partial(reuse.once, "inner", partial(numbers.__getitem__, "a"))

        assert reuse.once("outer", partial(_or_none, lambda _, inner=inner: inner(), {})) == value


def test_what_is_asked_for_outside_any_part_counts_for_all():
    reuse = Reuse()
    for value in (1000, 2000):
        outside = reuse.now("numbers", {"a": value}).get("a")

        assert reuse.once("part", lambda outside=outside: outside) == value


def test_another_thing_given_is_another_part():
    reuse = Reuse()
    one, other = object(), object()

    assert [reuse.once("part", partial(id, each), each) for each in (one, other)] == [
        id(one),
        id(other),
    ]


def test_every_way_into_a_record_is_noted():
    """A record has fields, own methods, and what pydantic can do with all of it."""
    reuse = Reuse()
    before = demo_record()
    looks: dict[str, Callable[[Record], object]] = {
        "field": lambda record: record.fabric.tails,
        "list": lambda record: [each.id for each in record.circuits],
        "entry": lambda record: record.circuits[0].name,
        "method": lambda record: record.circuit("C1").name,
        "all of an entry": lambda record: record.circuits[0].model_dump(),
        "taken": lambda record: record.taken(record.readings[0].slot),
        "copy": lambda record: record.model_copy().circuits,
        "dump": lambda record: record.model_dump(),
    }
    twin = before.circuits[0].model_copy(update={"name": "Loft"})
    after = before.model_copy(update={"circuits": (twin, *before.circuits[1:]), "readings": ()})
    after = after.model_copy(update={"readings": before.readings[:1]})
    for record in (before, after):
        view = seen_by(reuse, record)
        for name, look in looks.items():
            assert reuse.once(name, partial(look, view)) == look(record)
