"""Patterns across readings: each rule looks at the whole record and says what it found."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from records.judgement.concern import Pattern
from records.judgement.facts import Facts
from records.judgement.patterns.certifier import certifier_differs
from records.judgement.patterns.contradictions import polarity_contradicted, rcd_contradicted
from records.judgement.patterns.copied import (
    backwards,
    coarse,
    even_steps,
    identical,
    too_even,
)
from records.judgement.patterns.equal import equal_loops, equal_times
from records.judgement.patterns.instruments import calibration, wrong_kind
from records.judgement.patterns.leads import open_leads, tips
from records.judgement.patterns.loops import joined_island
from records.judgement.patterns.meter_offset import common_factor, common_offset
from records.judgement.patterns.odd_board import odd_board
from records.judgement.patterns.put_back import all_back, earth_back, surge_back
from records.judgement.patterns.raised_loops import all_open, raised
from records.judgement.patterns.ring_cross import bridged, same_leg
from records.judgement.patterns.ring_open import ring_open
from records.judgement.patterns.same_pair import one_pair_down
from records.judgement.patterns.same_point import same_point
from records.judgement.patterns.slip_series import slip_series
from records.judgement.patterns.supply import contradicted
from records.judgement.patterns.swapped import swapped
from records.judgement.patterns.times import (
    before_start,
    button_first,
    covered_late,
    hurried,
)
from records.judgement.patterns.untaken import much_untaken
from records.judgement.patterns.wet import wet

PatternRule = Callable[[Facts], Iterator[Pattern]]

PATTERNS: tuple[PatternRule, ...] = (
    joined_island,
    slip_series,
    common_offset,
    common_factor,
    open_leads,
    tips,
    swapped,
    contradicted,
    rcd_contradicted,
    polarity_contradicted,
    same_point,
    certifier_differs,
    earth_back,
    all_back,
    surge_back,
    same_leg,
    bridged,
    ring_open,
    wet,
    one_pair_down,
    all_open,
    raised,
    odd_board,
    equal_loops,
    equal_times,
    covered_late,
    before_start,
    button_first,
    hurried,
    calibration,
    wrong_kind,
    identical,
    backwards,
    too_even,
    even_steps,
    coarse,
    much_untaken,
)
