"""What the schedule says whatever the record: what it is, its rules, its cautions, its limits.

The cautions are common practice of the trade; live testing counts as live work under the
Electricity at Work Regulations 1989, regulation 14 (from memory).
"""

from __future__ import annotations

from records.judgement.trust import MEANING
from records.tables.edition import current_text, limits_from

NO_CERTIFICATE = "installer’s test record, not a certificate"
LIMITS_EDITION = limits_from()

PURPOSE = (
    "What the person who wired the outbuilding built, measured and found, for the electrician who "
    "inspects, tests and certifies. It certifies nothing and declares nothing to comply. A verdict "
    "compares one reading with one limit. Near the limit is not a pass, and a blank is never one."
)
NOTHING = "Nothing open: no reading and no design figure is outside, unlikely or near a limit."
NOTHING_YET = (
    "No finding so far: nothing that was read or calculated is outside, unlikely or near a limit. "
    "That says nothing of what is missing."
)
RULES = (
    f"The limits are those of {LIMITS_EDITION}, whatever edition somebody entered for the job. The "
    "certifier confirms which edition holds and that the limits are right for it. Local rules and "
    "the certifier’s word come before anything printed here."
)
LIMITS_FROM = f"limits of {LIMITS_EDITION}, not checked against {current_text()}"
EVERY_PAGE = (
    "Isolate, lock off, prove dead before touching. Live tests: competent persons only. "
    "Near the limit, or blank, is no pass. Local rules and the certifier come first."
)
FINGERPRINT = (
    "The fingerprint belongs to the record when this was written: after any later "
    "entry the record shows another one. Whoever recalculates the digests of a record, or cuts off "
    "its last changes, makes one that looks complete. Only a fingerprint printed or noted "
    "elsewhere, such as this one, shows it."
)
MARKS = (
    "✓ within · ! near limit, or for the certifier to decide · ✗ outside · ? unlikely: not beyond "
    "a limit but at odds with the rest; a lone · not known yet. A figure without a mark is not "
    f"judged on its own. A shaded F number is a finding, and leads to it. {MEANING}"
)
CAUTIONS = (
    "1  Isolate, lock off, keep the key, and prove dead at the place of work. Prove the two-pole "
    "indicator, test, prove it again. A volt-stick or a multimeter does not prove dead.",
    "2  No live test before the dead tests of that circuit are right. Live testing is live work. "
    "Covers on as far as possible, GS38 leads, a second person who knows, a competent person at "
    "hand.",
    "3  For Ze the whole installation is isolated and the earthing conductor is off its bar. "
    "Nothing else happens before it is back and tight.",
    "4  An insulation test puts 500 V on the conductors. Isolated and proved dead first; people "
    "warned; loads, lamp drivers, surge protection and electronics out. Discharge afterwards, and "
    "put back what came out.",
    "5  A loop test on an open protective conductor can make all metalwork live for its length. "
    "Continuity is proved first.",
    "6  Low alone is not safe. An electrode of a fraction of an ohm is a fault or a mistake until "
    "explained. So is Zs below the Zdb of its board.",
    "7  An RCD test takes the supply away: medical equipment, freezers, computers. Ask first.",
    "8  PME (TN-C-S) outdoors: if the supply’s neutral breaks, metal joined to its earth can "
    "become live against the ground. Metalwork, sockets and appliances outdoors are the "
    "certifier’s decision, made before the cable is bought. So is an earth electrode instead. "
    "The two earths are never mixed.",
    "9  Voltage where none should be, or more than a few volts between neutral and earth: stop. "
    "Leave it off, call the network operator (105 in Great Britain, from memory). A tingle from "
    "metal: touch nothing, not even the switch; everybody out; call. Somebody gets a shock: don’t "
    "touch them. Switch off at the house, or push them clear with something dry that doesn’t "
    "conduct. 999 or 112. Not breathing: CPR. Any shock: see a doctor. Leave all as it is.",
    "10  Cover nothing while a reading that it would hide is outside, unlikely or missing. No "
    "work goes on there either.",
    "11  The rules of the place decide whether this work has to be notified, and who may certify "
    "it. Ask building control, or a registered third-party certifier, before work starts "
    "(England; other nations differ). An electrician called at the end can’t sign for wiring they "
    "didn’t see.",
    "12  Not for use before the certificate. Until then it is left off and locked, with earths "
    "back, links out and covers on.",
    "13  Other sources (solar, battery, generator, electric vehicle) are isolated and locked off "
    "too. The feed can be live from both ends.",
    "14  No live test in rain, on wet ground or with wet hands, none from a ladder. Tester and "
    "leads CAT IV 300 V at the origin, CAT III at the board (from memory); fused leads.",
)

LIMITATIONS = (
    "It is what was entered. Whether a reading was taken where and how it says, only the person "
    "who took it knows. The record keeps every value, every re-test and its time.",
    "The instruments’ calibration is as stated by the person who records. A verdict allows for "
    "the instrument’s operating uncertainty only as far as that is known.",
    "Expectations assume that cables are as entered in kind, size and length, copper by "
    "IEC 60228, joined soundly. A figure marked “from memory” or “copy” in the list of sources "
    "was not checked against the standard itself.",
    "It covers a single-phase feed and its sub-board. The house’s own installation, structure, "
    "fire, gas, water and planning are outside it.",
    "What is hidden can’t be tested later by looking. What the certifier has not seen while it "
    "was open is not proved by this paper.",
    "The tests of the certifier’s own choosing, the inspection and the judgement remain the "
    "certifier’s. This paper replaces none of them.",
)
