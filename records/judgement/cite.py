"""The published grounds of the rules that no table carries."""

from __future__ import annotations

from records.evidence import COMMON_PRACTICE, Source
from records.terms import Basis

EDITION = "BS 7671:2018+A2:2022"

COMMON = COMMON_PRACTICE


def bs7671(place: str, basis: Basis = Basis.MEMORY) -> Source:
    """Return a place in BS 7671 as a source."""
    return Source(EDITION, place, basis)


CONTINUITY = bs7671("Regulation 643.2.1")
INSULATION = bs7671("Regulation 643.3", Basis.READ)
INSULATION_LEADS = Source("IET Guidance Note 3", "insulation resistance test", Basis.MEMORY)
POLARITY = bs7671("Regulation 643.6")
FUNCTION = bs7671("Regulation 643.10")
RETEST = bs7671("Regulation 643.1")
LET_THROUGH = bs7671("Regulations 434.5.2 and 543.1.3")
BREAKING = bs7671("Regulation 434.5.1")
RCD_TEST = bs7671("Regulations 643.7.1 and 643.8", Basis.READ)
RCD_IN_SERIES = bs7671("Regulation 536.4.1.4")
VOLT_DROP = bs7671("Section 525")
OVERLOAD = bs7671("Regulation 433.1.1")
RCD_CURRENT = Source("BS EN 61008-1", "operating characteristic", Basis.MEMORY)
RCDS_MADE = Source("IEC 61008-1", "clause 5.3.2, preferred values of IΔn", Basis.MEMORY)
RCD_SOCKETS = bs7671("Regulation 411.3.3", Basis.READ)
ADDITIONAL = bs7671("Regulation 415.1.1")
RCD_LIGHTING = bs7671("Regulation 411.3.4", Basis.READ)
RCD_HIDDEN = bs7671("Regulation 522.6.202", Basis.READ)
VEHICLE_RCD = bs7671("Regulation 722.531.3")
VEHICLE_PEN = bs7671("Regulation 722.411.4")
RCD_TYPE = bs7671("Regulation 531.3.3", Basis.READ)
TT_RCD = bs7671("Regulation 411.5.2")
ARMOUR_EARTHED = bs7671("Regulations 411.3.1.1 and 522.6.204")
CPC_TO_POINTS = bs7671("Regulation 411.3.1.1")
BONDS = bs7671("Regulations 411.3.1.2 and 544.1.1")
GUIDANCE = Source("IET Guidance Note 3", "ring final circuit test", Basis.READ)
LOOP_METHOD = Source("IET Guidance Note 3", "earth fault loop impedance", Basis.MEMORY)
RING_RATIO = Source("IEC 60228", "Table 1, resistances at 20 °C", Basis.READ)
METER = Source("BS EN 61557-1", "operating uncertainty", Basis.READ)
DECLARED = Source("Declared by the network operator, as entered", "Origin", Basis.COMMON_PRACTICE)
FUSE_1362 = Source("BS 1362", "ratings", Basis.MEMORY)
FAULT_AND_LOOP = Source("IET Guidance Note 3", "prospective fault current: U0/Z", Basis.MEMORY)
CALIBRATION = Source("IET Guidance Note 3", "test instruments", Basis.MEMORY)
