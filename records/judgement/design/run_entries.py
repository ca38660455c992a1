"""Pairs of entries about a run of cable that can't be so beside each other."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from records.judgement import cite
from records.judgement.compare import SLACK
from records.judgement.design.odd import WRONG, odd
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.reading import Place
from records.model.wiring import Run
from records.tables import protective
from records.terms import CableKind, Cpc, Method, Verdict

_ARMOUR = (Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR)
_CORE = (Cpc.CORE, Cpc.CORE_AND_ARMOUR)
_FLAT_ONLY = (Method.M100, Method.M101, Method.M102, Method.M103)
Rule = Callable[[Facts, Place, Run, int], Iterator[Judged]]


def run_lines(facts: Facts, place: Place, runs: tuple[Run, ...]) -> Iterator[Judged]:
    """Return a line for each contradiction in the runs of a feed or a circuit."""
    for count, run in enumerate(runs, start=1):
        for rule in _RULES:
            yield from rule(facts, place, run, count)


def _armour(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """An armour as cpc of a cable that has none."""
    if run.cpc not in _ARMOUR or run.cable is None or run.cable.is_armoured:
        return
    yield odd(
        facts,
        place,
        f"armour of run {count}",
        f"Run {count} is {run.cable.value}, which has no armour; its cpc is entered as "
        f"“{run.cpc.value}”.",
        "Look at the cable, and enter which of both it is.",
        title=f"what serves as cpc of run {count}",
        weight=60,
        causes=("what serves as cpc was entered wrongly", "the cable was entered wrongly"),
    )


def _spare_core(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """A core as cpc of a cable whose cores are all taken by line and neutral."""
    kinds = (CableKind.SWA_XLPE, CableKind.SWA_PVC, CableKind.FLEX)
    if run.cpc not in _CORE or run.cable not in kinds or run.cores > _LINE_AND_NEUTRAL:
        return
    yield odd(
        facts,
        place,
        f"core as cpc of run {count}",
        f"Run {count} has {run.cores} core{'s' * (run.cores > 1)}: line and neutral take "
        f"{'both' if run.cores > 1 else 'more than that'}, so none is left as cpc.",
        "Count the cores at the gland. Enter the number, or what really serves as cpc.",
        title=f"what serves as cpc of run {count}",
        weight=60,
        causes=("the number of cores was entered wrongly", "the armour serves as cpc"),
    )


def _cores(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """A cable with one core, or with more than such a cable is made with."""
    if run.cable is None or run.cable is CableKind.SINGLES:
        return
    most = _MOST_CORES.get(run.cable)
    if run.cores >= _LINE_AND_NEUTRAL and (most is None or run.cores <= most):
        return
    few = run.cores < _LINE_AND_NEUTRAL
    says = "line and neutral need two" if few else f"it has {most} at most"
    yield odd(
        facts,
        place,
        f"cores of run {count}",
        f"Run {count} is {run.cable.value} with {run.cores} core{'s' * (run.cores > 1)}: {says}.",
        "Count the insulated cores, and enter the number; the bare cpc of flat cable is none.",
        title=f"cores of run {count}",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
    )


def _cpc_size(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """A size of the cpc that the cable can't have."""
    size, line_size = run.cpc_csa, run.csa
    if size is None or line_size is None or run.cpc is None or run.cpc is Cpc.SEPARATE:
        return
    if run.cpc in (Cpc.ARMOUR, Cpc.NONE):
        says = f"a cpc of {size:g} mm² is entered beside “{run.cpc.value}”"
    elif run.cable is not None and run.cable.is_armoured and abs(size - line_size) > SLACK:
        says = f"the cores of an armoured cable are alike: {line_size:g} mm², not {size:g} mm²"
    elif size > line_size + SLACK:
        says = f"a core of {size:g} mm² as cpc is larger than its line, {line_size:g} mm²"
    else:
        return
    yield odd(
        facts,
        place,
        f"cpc size of run {count}",
        f"Run {count}: {says}.",
        "Look at the cable. Correct the size of the cpc, or what serves as cpc.",
        title=f"size of the cpc of run {count}",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
        weight=30,
    )


def _separate(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """A separate cpc under the least size of one that is in no cable, conduit or trunking."""
    size = run.cpc_csa
    # Single cores lie in conduit or trunking, and their cpc with them.
    if run.cpc is not Cpc.SEPARATE or size is None or run.cable is CableKind.SINGLES:
        return
    sheltered = protective.least_separate(protected=True)
    bare = protective.least_separate(protected=False)
    known = run.protected is not None
    least = sheltered if run.protected or not known else bare
    named = f"separate cpc of run {count}"
    if size < least.value - SLACK:
        how = "" if not known else " protected" if run.protected else " not protected"
        yield odd(
            facts,
            place,
            named,
            f"Run {count}: a separate cpc{how} from mechanical damage is at least "
            f"{least.value:g} mm²; {size:g} mm² is entered."
            if known
            else f"Run {count}: a separate cpc is at least {least.value:g} mm²; {size:g} mm² is "
            "entered.",
            "Plan a larger cpc, or one that lies in the cable or its conduit.",
            title=f"least separate cpc, run {count}",
            source=least.source,
            weight=30,
        )
    elif not known and size < bare.value - SLACK:
        yield odd(
            facts,
            place,
            named,
            f"Run {count}: {size:g} mm² is enough for a separate cpc that is protected from "
            f"mechanical damage. One that isn't needs {bare.value:g} mm².",
            f"Enter whether the cpc of run {count} is protected.",
            title=f"least separate cpc, run {count}",
            verdict=Verdict.NOT_TAKEN,
            source=bare.source,
        )


def _method(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """A way of laying that the cable isn't made for."""
    cable, method = run.cable, run.method
    if cable is None or method is None:
        return
    if method in _FLAT_ONLY and cable is not CableKind.FLAT:
        says, weight = "methods 100 to 103 are for flat twin-and-earth alone", 20
    elif method is Method.D and not cable.is_armoured:
        says, weight = "in the ground it has no armour against spades", 40
    else:
        return
    yield odd(
        facts,
        place,
        f"method of run {count}",
        f"Run {count} is {cable.value}, laid by method {method.value}: {says}.",
        "Look at the run. Correct the cable or the method, or plan a cable for that place.",
        title=f"cable and method of run {count}",
        causes=WRONG,
        weight=weight,
        source=cite.bs7671("Regulation 522.8.10 and Table 4A2"),
    )


def _ground(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """What only a buried run has, beside a method that is not in the ground."""
    plain = Run()
    there = [
        words
        for words, here in (
            ("a depth", run.depth is not None),
            ("a duct", run.duct),
            ("a gap to the next cable", run.gap > 0),
            ("the soil", run.soil != plain.soil),
        )
        if here
    ]
    if run.method is None or run.method is Method.D or not there:
        return
    yield odd(
        facts,
        place,
        f"ground of run {count}",
        f"Run {count} is laid by method {run.method.value}; with it is entered {there[0]}, which "
        "only a buried run (D) has. It is not counted.",
        "If the run is buried, enter method D; else clear that field.",
        title=f"method of run {count}",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
        source=cite.bs7671("Table 4A2"),
    )


def _insulated(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """More of a run in thermal insulation than the run is long."""
    if run.length is None or run.insulated <= run.length * 1000 + SLACK:
        return
    yield odd(
        facts,
        place,
        f"insulation round run {count}",
        f"Run {count} is {run.length:g} m long; {run.insulated / 1000:g} m of it are entered as "
        "in thermal insulation.",
        "Measure both, and correct the one that is wrong (insulation in mm, the length in m).",
        title=f"length of run {count}",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
    )


def _terminals(facts: Facts, place: Place, run: Run, count: int) -> Iterator[Judged]:
    """Terminals for 90 °C on a cable for less."""
    if not run.hot_terminals or run.cable is None or run.cable is CableKind.SWA_XLPE:
        return
    yield odd(
        facts,
        place,
        f"terminals of run {count}",
        f"Run {count} is {run.cable.value}: on terminals for 90 °C it carries no more.",
        "Correct the cable, or take back that its terminals are marked for 90 °C.",
        title=f"terminals of run {count}",
        verdict=Verdict.UNLIKELY,
        causes=WRONG,
        source=cite.bs7671("Regulation 512.1.5"),
    )


_LINE_AND_NEUTRAL = 2
_MOST_CORES = {CableKind.FLAT: 3, CableKind.SWA_XLPE: 4, CableKind.SWA_PVC: 4, CableKind.FLEX: 5}
"""Insulated cores that a cable is made with, as far as it is of use here: common practice."""
_RULES: tuple[Rule, ...] = (
    _armour,
    _spare_core,
    _cores,
    _cpc_size,
    _separate,
    _method,
    _ground,
    _insulated,
    _terminals,
)
