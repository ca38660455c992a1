"""The places that the formulas come from."""

from __future__ import annotations

from records.evidence import Source
from records.terms import Basis

GN3_LOOP = Source("IET Guidance Note 3", "loop impedance: Zs = Ze + (R1+R2)", Basis.MEMORY)
GN3_RING = Source("IET Guidance Note 3", "continuity of ring final circuits", Basis.MEMORY)
GN3_FAULT = Source("IET Guidance Note 3", "prospective fault current: U0/Z", Basis.MEMORY)
CROSSED = Source("Calculated from the two ways round a ring", "", Basis.WORKED_OUT)
DECLARED = Source("Design input", "Origin", Basis.ENTERED)
READ_OFF = Source("Readings taken", "", Basis.ENTERED)
DROP = Source("BS 7671:2018+A2:2022", "Appendix 4, section 6", Basis.READ)
CAPACITY = Source("BS 7671:2018+A2:2022", "Appendix 4, section 5.1", Basis.MEMORY)
ORDER = Source("BS 7671:2018+A2:2022", "Regulation 433.1.1", Basis.MEMORY)
TERMINALS_70 = Source("BS 7671:2018+A2:2022", "Regulation 512.1.5, Table 4E4A note", Basis.READ)
ADIABATIC = Source("BS 7671:2018+A2:2022", "Regulation 543.1.3", Basis.READ)
LOWEST = Source("BS 7671:2018+A2:2022", "Regulation 411.4.4", Basis.MEMORY)
COLD_EXACT = Source("BS 7671:2018+A2:2022", "Appendix 3", Basis.MEMORY)
DECLARED_DEVICE = Source("Design input", "label of the device", Basis.ENTERED)
DECLARED_CABLE = Source("Design input", "run of cable", Basis.ENTERED)
