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
