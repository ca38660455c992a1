"""Advice that several rules give in the same words."""

from __future__ import annotations

from records.judgement.advice.acts import Act
from records.judgement.advice.steps import do

LOCK_OFF = do(Act.LEAVE_OFF, "Switch it off and lock it off.")
EARTH_BACK = do(Act.LEAVE_OFF, "Earth back and tight first.")
"""First of all that is said about Ze: the main earth is off while it is read."""
WHOLE_HOUSE_OFF = do(Act.LEAVE_OFF, "The whole installation stays off, the house too.")
RING_105 = do(Act.ASK, "Ring the network operator's emergency number: 105 in Great Britain.")
"""From memory, as in the schedule's cautions."""
CERTIFIER = do(Act.ASK, "The certifier decides.")
ZE_AGAIN = do(
    Act.EARTH_OFF,
    "Only then its earthing conductor off; somebody competent in live testing reads Ze again.",
)
BOARD_OFF = do(Act.LEAVE_OFF, "Switch the board off and lock it off.") + do(
    Act.READ_DEAD, "Read the earths again, dead."
)
CIRCUIT_OFF = LOCK_OFF + do(Act.READ_DEAD, "Read R1+R2 at this point again, dead.")
AT_TERMINALS = LOCK_OFF + do(
    Act.OPEN, "Tighten the terminals at this point and read R1+R2 here again."
)
"""Before any live probing: a reading at open terminals is nobody's need."""
TIPS = do(Act.AGAIN, "Join the test tips: if they don't show 0.00, it is the leads.")
STAYS_OFF = do(Act.LEAVE_OFF, "It stays locked off until this reading is satisfactory.")
OPEN_PEN = do(
    Act.ASK,
    "Stop. Touch no metal, tap, pipe, frame or switchgear case, inside or out. Everybody out and "
    "away, animals too. Ring 105 (Great Britain) and wait. Take no more readings. Switching off "
    "doesn't help.",
)
"""A neutral that broke in the street: metal that the supply earths may be live everywhere."""
CROSSED = do(
    Act.LEAVE_OFF,
    "Lock off at a double-pole switch: a single-pole breaker leaves the line in. Prove dead, L-E "
    "and N-E too. Touch no metal meanwhile.",
) + do(Act.ASK, "Tell the certifier. They or the network operator look upstream, not you.")
"""The line of the supply is where the neutral should be."""
NO_EARTH = do(Act.LEAVE_OFF, "Switch it off and lock it off: its metal may have no earth.") + do(
    Act.READ_DEAD, "Read the earths, dead."
)
EACH_NEUTRAL = do(Act.LIFT, "Loads and electronics out. Insulation N-E, one neutral out at a time.")
RIGHT_NOW = do(Act.LOOK, "If correct now, stop here.")
"""Between a reading taken again and what is only done if that is bad too."""
SPLIT_IF = do(Act.OPEN, "If it stays, split the run and test each half. Tighten what you open.")
SPLIT = do(Act.OPEN, "Split the run and test each half. Tighten what you open.")
LOADS_OFF = do(Act.AGAIN, "Switch the loads off and retest.")
CHANGE_RCD = do(Act.LEAVE_OFF, "Lock it off: its supply side stays live.") + do(
    Act.CHANGE, "Change the RCD; test the new one."
)
