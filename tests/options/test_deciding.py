"""Four feeds, each decided by one thing: the fixtures whose cable is still to be bought.

The sums beside each are done by hand from the tables: mV/A/m and ratings of BS 7671, Appendix 4,
resistances of IEC 60228 and BS 5467, from memory.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from records.options.cell import Check
from records.options.feed import feed_options
from records.store.exchange import from_json
from records.terms import CableKind, Cpc, Verdict

FOLDER = Path(__file__).parents[2] / "fixtures"


def choice(name):
    return feed_options(from_json((FOLDER / f"{name}.json").read_text(encoding="utf-8")))


def option(found, csa, cpc, cores=2, cable=CableKind.SWA_XLPE):
    return next(
        each
        for each in found.options
        if (each.make.cable, each.make.csa, each.make.cpc, each.make.cores)
        == (cable, csa, cpc, cores)
    )


def failing(one):
    return {each.check for each in one.cells if each.verdict is Verdict.OUTSIDE}


def test_armour_alone_fails_and_a_third_core_saves_it():
    """Armour of 2-core 10 mm²: 6.0 mΩ/m, like 16 × 1.15 / 6.0 = 3.1 mm² of copper; asked: 10."""
    found = choice("feed-third-core")
    alone, saved = option(found, 10.0, Cpc.ARMOUR), option(found, 10.0, Cpc.CORE, 3)

    assert failing(alone) == {Check.BOND}
    assert "3.1 mm²" in alone.decides.why
    assert found.smallest is saved
    assert failing(saved) == set()


@pytest.mark.parametrize(
    ("name", "check", "fails", "passes", "cpc"),
    [
        # 70 m × 22 A: 4.7 mV/A/m gives 7.2 V of 6.9 V, 2.9 gives 4.5 V; lamps come on top.
        ("feed-by-drop", Check.DROP, 10.0, 16.0, Cpc.ARMOUR),
        # C20: 0.95 × 230 / 200 = 1.09 Ω. 0.35 + 40 m × (9.45 + 12.3) mΩ/m = 1.22 Ω;
        # 4 mm²: (5.88 + 11.0) mΩ/m gives 1.03 Ω.
        ("feed-by-loop", Check.LOOP, 2.5, 4.0, Cpc.ARMOUR),
        # 63 A: 60 A × 0.9 = 54 A; 78 A × 0.9 = 70 A.
        ("feed-by-rating", Check.RATING, 10.0, 16.0, Cpc.ARMOUR),
    ],
)
def test_one_thing_decides(name, check, fails, passes, cpc):
    found = choice(name)
    thin, thick = option(found, fails, cpc), option(found, passes, cpc)

    assert failing(thin) - {Check.TIME} == {check}
    assert thin.decides.check is check
    assert thick.will_do


def test_a_smaller_line_with_a_better_cpc_is_found_where_the_loop_decides():
    found = choice("feed-by-loop")

    assert found.smallest.make.csa == 2.5
    assert found.smallest.make.cpc is not Cpc.ARMOUR
