"""What the tables of current-carrying capacity are for, before any factor.

BS 7671:2018+A2:2022, Appendix 4, Tables 4B1 and 4B2 (from memory).
"""

from __future__ import annotations

AIR = 30.0
"""Air round a cable [°C]."""
GROUND = 20.0
"""Ground round a buried cable [°C]."""
