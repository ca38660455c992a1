"""All advice that can be printed: nothing is opened, lifted, changed or probed without its state.

Walked three ways: every piece of advice written in the source, every record that a rule is known to
speak on, and the fixtures. A new sentence that skips the table fails here.

Grounds: Electricity at Work Regulations 1989, regulations 12 to 14, and HSE HSR25 (from memory).
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import records
from records.demo import demo_record
from records.expected.plan import expected
from records.judgement.advice import Act, State
from records.judgement.review import preview, review
from records.model.reading import Figure, Tick
from records.model.record import Record
from records.model.slots import measured_by, slots
from records.store.exchange import from_json
from tests.judgement.advice.speech import acts_in, known, unsafe
from tests.judgement.jobs import ISLAND, SOUND, over, read, reviewed, sound_job, spoilt, under
from tests.judgement.pattern_jobs import SPEAKS, WITH_SURGE
from tests.judgement.test_loop_scenes import PME, TT

ROOT = Path(records.__file__).parent
FIXTURES = Path(__file__).parents[3] / "fixtures"


# What the source says.


def _sources() -> Iterator[tuple[Path, ast.Module]]:
    for path in sorted((ROOT / "judgement").rglob("*.py")):
        yield path, ast.parse(path.read_text(encoding="utf-8"))


def _words(node: ast.AST) -> str:
    """Return what is known of a text in the source, a stop for what is put in when it runs."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else ""
    if isinstance(node, ast.JoinedStr):
        return "".join(_words(each) or "…" for each in node.values)
    if isinstance(node, ast.BinOp):
        return _words(node.left) + _words(node.right)
    if isinstance(node, ast.IfExp):
        return f"{_words(node.body)} {_words(node.orelse)}"
    return ""


def _steps() -> Iterator[tuple[str, Act, str]]:
    """Yield the place, the act and the words of every step in the source."""
    for path, tree in _sources():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call) or getattr(node.func, "id", "") not in ("do", "plan"):
                continue
            where = f"{path.relative_to(ROOT)}:{node.lineno}"
            if node.func.id == "plan":
                yield where, Act.PLAN, _words(node.args[0])
            elif isinstance(node.args[0], ast.Attribute):
                yield where, Act[node.args[0].attr], _words(node.args[1])


def test_every_act_that_needs_a_state_is_known_by_its_words():
    assert known() == {act for act in Act if act.needs is not State.ANY}


def test_every_step_declares_the_gravest_act_in_its_words():
    steps = [each for each in _steps() if each[2]]

    assert len(steps) > 150
    for where, act, words in steps:
        for shown, _ in acts_in(words):
            assert shown.needs is act.needs, f"{where}: {words!r} is {shown.name}"


def test_advice_is_made_of_acts_and_never_of_a_bare_sentence():
    """A bare one would be printed without the state that it needs."""
    calls = 0
    for path, tree in _sources():
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call):
                continue
            given = [each.value for each in node.keywords if each.arg == "next_check"]
            if getattr(node.func, "id", "") == "Concern" and len(node.args) > 4:
                given.append(node.args[4])
            for value in given:
                calls += 1
                bare = isinstance(value, ast.Constant | ast.JoinedStr)
                assert not bare, f"{path.relative_to(ROOT)}:{value.lineno}"
    assert calls > 90


def _literals() -> Iterator[tuple[str, str]]:
    """Yield every other sentence of the judgement: what is wrong, likely causes, reasons."""
    for path, tree in _sources():
        if path.parent.name == "advice":
            continue
        skipped: set[int] = set()
        for node in ast.walk(tree):
            is_step = isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("do", "plan")
            is_docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
            if is_step or is_docstring:
                skipped |= {id(each) for each in ast.walk(node)}
            elif isinstance(node, ast.Constant | ast.JoinedStr) and id(node) not in skipped:
                skipped |= {id(each) for each in ast.walk(node)}
                words = _words(node)
                if " " in words:
                    yield f"{path.relative_to(ROOT)}:{node.lineno}", words


def test_no_cause_and_no_reason_asks_for_an_act():
    """They are read as advice too: “change it” among the causes is done."""
    texts = list(_literals())

    assert len(texts) > 400
    for where, words in texts:
        assert not unsafe(words), f"{where}: {words!r}"


# What the review prints.


def _fixtures() -> Iterator[Record]:
    for path in sorted(FIXTURES.glob("*/job.json")):
        yield from_json(path.read_text(encoding="utf-8"))


def _all_wrong(job: Record) -> Record:
    """Return a job in which every check was found wrong."""
    checks = [slot for slot in slots(job) if measured_by(slot).is_check]
    taken = (read(2000 + n, slot, Tick(good=False), 2000 + n) for n, slot in enumerate(checks))
    return spoilt(*taken, record=sound_job(job))


def _open_at_all(job: Record) -> Record:
    """Return a job in which every figure is next to nothing: much is found at once."""
    figures = [slot for slot in slots(job) if not measured_by(slot).is_check]
    return spoilt(*((slot, 0.0) for slot in figures), record=sound_job(job))


def _odd(job: Record) -> Iterator[tuple[str, str]]:
    """Yield what is said of each reading of a job, one after the other far off in each way."""
    record = sound_job(job)
    known = expected(record)
    for slot in slots(job):
        if measured_by(slot).is_check:
            continue
        was = record.taken(slot)[-1].taken
        value = was.value if isinstance(was, Figure) else 1.0
        for taken in (
            Figure(value=value * 0.1),
            Figure(value=value * 3.0),
            Figure(value=-1.0),
            Figure(value=value * 1000.0),
            over(value + 30.0),
            under(value),
        ):
            line = preview(record, known, read(3000, slot, taken, 3000))
            yield line.key, line.next_check


def _printed() -> Iterator[tuple[str, str]]:
    jobs = (SOUND, ISLAND, PME, TT, WITH_SURGE)
    reviews = [
        *(reviewed(make()) for make in SPEAKS.values()),
        *(reviewed(_all_wrong(job)) for job in jobs),
        *(reviewed(_open_at_all(job)) for job in jobs),
        *(review(job, expected(job)) for job in (*_fixtures(), demo_record())),
    ]
    for found in reviews:
        for line in found.findings:
            yield line.key, line.next_check
    for job in (SOUND, ISLAND, PME):
        yield from _odd(job)


@pytest.fixture(scope="module")
def printed() -> list[tuple[str, str]]:
    return list(_printed())


@pytest.mark.slow
def test_nothing_that_is_printed_asks_for_an_act_without_its_state(printed):
    texts = {(key, text) for key, text in printed if text}

    assert len({text for _, text in texts}) > 100
    for key, text in texts:
        assert not unsafe(text), f"{key}: {text}"


@pytest.mark.slow
def test_the_readers_are_sent_to_no_cut_out_meter_or_tails(printed):
    """They are the network operator's: sealed, and live whatever is switched off."""
    for key, text in printed:
        for word in ("cut-out", "meter and tails", "tails"):
            for sentence in text.split(". "):
                if word in sentence.casefold():
                    assert "not yours" in sentence or "stay live" in sentence, f"{key}: {text}"


def test_a_sentence_has_at_most_twenty_words(printed):
    """A cold reader with one hand on a probe takes in no more."""
    for key, text in printed:
        for sentence in text.replace("; ", ". ").replace(": ", ". ").split(". "):
            assert len(sentence.split()) <= 20, f"{key}: {sentence}"


def test_nothing_is_said_twice(printed):
    for key, text in printed:
        sentences = [each for each in text.split(". ") if len(each.split()) > 2]
        assert len(sentences) == len(set(sentences)), f"{key}: {text}"


@pytest.mark.parametrize(
    "text",
    [
        "Open this point and look.",
        "Lift the neutral.",
        "Take all loads out and repeat.",
        "Then change the RCD.",
        "Loads off; then insulation N-E with all neutrals lifted.",
        "Tighten and repeat.",
        "Read again on the high-current range.",
        "Drive the rod deeper.",
        "Look at it; then split the run.",
        "Read R1+R2 again.",
        "Join opposite legs.",
        "Only then its earthing conductor off.",
        "A heater on, the clamp round the line.",
    ],
)
def test_a_sentence_that_skips_the_table_is_found(text):
    """The older ones among them were printed once."""
    assert unsafe(text)
    assert not unsafe(
        f"Isolate, lock off, prove dead. Competent person only. Look for buried services. {text}"
    )


@pytest.mark.parametrize(
    "text",
    [
        "a switch left open",
        "the neutral is still in its bar",
        "Ask the certifier.",
        "Switch it off and lock it off.",
        "Join the test tips: 0.00.",
        "Read again.",
        "an open lead or a blown fuse in a probe",
        "Leave everything off.",
    ],
)
def test_what_asks_for_nothing_is_let_by(text):
    assert not unsafe(text)


def test_the_dead_stage_has_no_live_step_in_it(printed):
    """What a dead reading asks for is never a live one."""
    dead = [(key, text) for key, text in printed if "/dead/" in key and text]

    assert len(dead) > 100
    for key, text in dead:
        assert "Live test" not in text, f"{key}: {text}"
