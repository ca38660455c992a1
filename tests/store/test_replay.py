"""The fast way to replay a change, against the library for JSON Patch (RFC 6902)."""

from __future__ import annotations

import copy
from typing import Any

from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from records.errors import BadRecord
from records.store.patch import apply
from records.store.replay import replay

_parts = st.sampled_from(
    ["job", "place", "readings", "circuits", "0", "1", "2", "-", "00", "-1", "²", "", "a~1b", "~"]
)
_paths = st.lists(_parts, max_size=4).map(lambda parts: "".join(f"/{part}" for part in parts))
_values = st.one_of(st.none(), st.integers(0, 3), st.just({"place": [1]}), st.just([{}, 2]))
_ops = st.fixed_dictionaries(
    {"op": st.sampled_from(["add", "replace", "remove", "copy", "x"]), "path": _paths},
    optional={"value": _values, "from": _paths},
)


_ENDS = {"/readings/-", "/circuits/-", "/circuits/0/job/-", "/circuits/1/-", "/circuits/1/1/-"}
"""Where `-` is the end of a list. No object of a record has a member of that name, and where one
had, the library would take it for an end in some operations and for the member in others."""


def _doc() -> dict[str, Any]:
    return {
        "job": {"place": "x", "0": {"1": 2}},
        "readings": [{"place": 1}, {"place": 2}],
        "circuits": [{"job": [1, 2]}, [3, [4]], None],
    }


def _outcome(act: Any, ops: list[dict[str, Any]], undoing: bool) -> Any:
    doc, given_ops = _doc(), copy.deepcopy(ops)
    try:
        back = act(doc, given_ops, undoing)
    except (BadRecord, AttributeError) as error:
        return type(error), str(error), doc
    after = copy.deepcopy(doc)
    apply(doc, back, undoing=True)
    assert doc == _doc()
    return back, after


@settings(max_examples=400, deadline=None)
@example([{"op": "add", "path": "/readings/-", "value": {}}], False)
@example([{"op": "remove", "path": "/readings/1"}], True)
@example([{"op": "remove", "path": "/readings/1"}], False)
@example([{"op": "add", "path": "/readings/-/0", "value": {}}], False)
@example([{"op": "add", "path": "/circuits/1", "value": {}}], False)
@example([{"op": "add", "path": "/job/a~1b", "value": 1}], False)
@given(st.lists(_ops, min_size=1, max_size=2), st.booleans())
def test_it_does_and_undoes_what_the_library_does(ops: list[dict[str, Any]], undoing: bool) -> None:
    paths = [op.get(key, "") for op in ops for key in ("path", "from")]
    assume(all(path in _ENDS for path in paths if path.endswith("/-")))

    def slow(doc: Any, ops: Any, undoing: bool) -> Any:
        return apply(doc, ops, undoing=undoing, replaying=True)[1]

    def fast(doc: Any, ops: Any, undoing: bool) -> Any:
        return replay(doc, ops, undoing=undoing)

    assert _outcome(fast, ops, undoing) == _outcome(slow, ops, undoing)
