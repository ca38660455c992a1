"""What a person must be told at the place where they could be hurt: short, and in our own words.

Grounds: HSE GS38 and HSR25, the Electricity at Work Regulations 1989, IET Guidance Note 3, BS 7671
Part 6: all from memory, to be confirmed by a competent person.
"""

from __future__ import annotations

from dataclasses import dataclass

from records.taking.families import Family
from records.terms import Stage

LOCAL = "Local rules and a competent person on the spot go before this screen."
STOP = (
    "Voltage where there should be none, or more than a few volts between N and earth: stop. Leave "
    "it off, keep others away, call the network operator."
)
SHOCK = (
    "Somebody gets a shock: don't touch them. Switch off at the house, or push them clear with "
    "something dry that doesn't conduct. 999 or 112. Not breathing: CPR. Any shock: see a doctor. "
    "Leave all as it is."
)
TINGLE = (
    "A tingle from metal: touch nothing, not even the switch. Everybody out. Call the network "
    "operator: 105 in Great Britain."
)
COMPETENT = (
    "Competent means: trained in these tests, has done them under supervision, knows GS38 and this "
    "tester. First time? Answer no: the certifier takes them, and nothing is lost."
)
OTHER_SOURCES = "solar, battery, generator, electric vehicle, a second feed"


@dataclass(frozen=True, slots=True)
class Caution:
    """What to make sure of before an act."""

    key: str
    """Which act; it is shown once while somebody takes readings."""
    title: str
    lines: tuple[str, ...]


DEAD = Caution(
    "dead",
    "Before the first dead test",
    (
        f"Switch off, lock off, keep the key, leave a notice. Other sources too: {OTHER_SOURCES}.",
        "Prove dead at the place of work: proving unit, then L-N, L-E, N-E, then the proving unit "
        "again. A proper two-pole indicator; a volt-stick or a multimeter is not enough.",
        "It isn't dead: stop, close up, find out why. A single-pole breaker leaves the neutral in. "
        "Tails and the top of the main switch stay live.",
        "Children and animals away and told: nobody switches on in the house. Livestock off wet "
        "ground.",
        "Test the leads: tips joined, then apart. An open lead looks like perfect insulation.",
        SHOCK,
        TINGLE,
        LOCAL,
    ),
)

_FAMILY: dict[Family, tuple[str, tuple[str, ...]]] = {
    Family.EARTHS: (
        "Before earths and bonds come off",
        (
            "One at a time. Isolated, locked off and proved dead: then one end off, read, back and "
            "tight, ticked, before the next one.",
            "Clamp a bond first. Current in it, even with all switched off, comes from the street "
            "or the neighbours. Leave it on and tell the certifier.",
            "At the house board only what is proved dead is touched. Landing the feed there is the "
            "certifier's: its tails stay live. No seal is broken, no service fuse drawn.",
            LOCAL,
        ),
    ),
    Family.INSULATION: (
        "Before the insulation tests",
        (
            "The tester puts 500 V d.c. on the conductors: it hurts, and it destroys electronics.",
            "Still isolated, locked off and proved dead. Lamps, drivers, surge protection, "
            "chargers and appliances disconnected, not just off; neutrals out of the bar.",
            "Nobody else at any end of the cable.",
            "Hold the test button until the reading is steady; let the tester discharge the cable "
            "before you touch it.",
            LOCAL,
        ),
    ),
    Family.ELECTRODE: (
        "Before the electrode's conductor comes off",
        (
            "The outbuilding has no earth meanwhile. Isolate all of it and lock it off first. Feed "
            "off at the house, both poles. Prove dead, L-E and N-E too.",
            "Look for buried services before a spike or a rod goes in: plans, locator.",
            "The conductor goes back at once and is tightened, before anything is live. The next "
            "question is whether it is back.",
            LOCAL,
        ),
    ),
    Family.SUPPLY: (
        "Before the first live reading at the origin",
        (
            f"Main switch off and locked off; other sources too: {OTHER_SOURCES}. Its incoming "
            "terminals stay live.",
            "Tester and leads CAT IV 300 V here; fused leads; look them over first. GS38 probes, "
            "covers on as far as possible, a second person who knows.",
            "The cut-out, the meter and the tails are not yours. No seal is broken, no service "
            "fuse drawn. What should be done there, the network operator does.",
            STOP,
            SHOCK,
            TINGLE,
            LOCAL,
        ),
    ),
    Family.ZE: (
        "Before Ze",
        (
            "Nobody has to take this: the network operator will tell you Ze. It is for somebody "
            "competent; ask the certifier.",
            "The WHOLE installation is isolated and locked off, the house too: main switch and any "
            f"other source: {OTHER_SOURCES}.",
            "Only then the earthing conductor comes off its bar. While it is off, no metal in the "
            "building is earthed: people and animals away from it.",
            "The incoming terminals stay live. Covers on as far as possible, GS38 leads, tester "
            "CAT IV 300 V, a second person who knows.",
            "Afterwards the earth goes back FIRST. The next question is whether it did.",
            LOCAL,
        ),
    ),
    Family.ENERGISE: (
        "Before you energise the board",
        (
            "Every dead test satisfactory. Every link out: R1+R2, ring, N-E. Neutrals back, each "
            "in its "
            "own place. Electrode, surge protection, RCBO leads back. Terminals tight.",
            "Every earth and bond back and tight, every cover on, lampholders closed. Nobody works "
            "on a circuit.",
            "Main switch OFF, every breaker off. Then the feed on at the house: say it aloud. "
            "Polarity and the voltages at its incoming terminals, then Zdb.",
            "Only then the main switch, and one circuit at a time.",
            "A battery or an inverter can feed it from this end too: that stays locked off.",
            "With PME, N-E near 0 V doesn't show that the supply's neutral is sound. Neutral and "
            "earth are one up to the intake.",
            STOP,
            SHOCK,
            TINGLE,
            LOCAL,
        ),
    ),
    Family.BOARD_LOOP: (
        "Before the loop tests at the board",
        (
            "Main switch off: at its incoming terminals. Live terminals within reach: covers on as "
            "far as possible, GS38 probes. No jewellery, one hand where you can, a second person.",
            "Tester and leads CAT III at least; fused leads; look them over first.",
            "All earths connected. A break in the earth can make all metalwork live during the "
            "test: nobody touches any.",
            LOCAL,
        ),
    ),
    Family.LOOP: (
        "Before the loop tests at the furthest points",
        (
            "Only circuits whose dead tests are satisfactory. An open cpc makes the metal of the "
            "appliance live while you test.",
            "Main switch on, one circuit on at a time. Use a plug-in adaptor where there is a "
            "socket.",
            "No socket: no probes in a lampholder, none on a ladder. Zdb + R1+R2 will do.",
            "Low can be wrong too. Below the board's own loop, or a fraction of an ohm on an "
            "earth electrode: stop and look.",
            LOCAL,
        ),
    ),
    Family.RCD: (
        "Before the RCD tests",
        (
            "The supply drops: freezers, computers, alarms, medical equipment. Ask, do not assume.",
            "Loads unplugged. During the test exposed metal may carry voltage for a moment: nobody "
            "touches any.",
            "The loop must be known and the touch voltage under 50 V before you start.",
            LOCAL,
        ),
    ),
    Family.LAST: (
        "Before the functional tests",
        (
            "Every cover on. Nothing is connected, disconnected or tightened while it is live. "
            "Lock off "
            "the feed at the house and prove dead first.",
            "A clamp goes on and comes off dead. What is not right is switched off, locked off and "
            "labelled.",
            "Afterwards say how you leave it. It is not for use before the certificate.",
            LOCAL,
        ),
    ),
}
_LIVE: dict[Family, tuple[str, tuple[str, ...]]] = {
    Family.ELECTRODE: (
        "Before RA is read with the loop tester",
        (
            "Live work with the only earth off: for somebody competent, and nobody has to take it. "
            "Three-pole, dead, is the safe way.",
            "Main switch off and locked off, no circuit on. Nobody near the rod or any metal; "
            "animals away.",
            "One probe on the electrode's conductor, one on the incoming line.",
            "Back and tight at once, before anything else. The next question is whether it is.",
            LOCAL,
        ),
    ),
}
"""Where the live tests of a family need another caution than the dead ones."""


def before(stage: Stage, family: Family) -> tuple[Caution, ...]:
    """Return what must be read before the first reading of a family at a stage, in order."""
    live = stage is Stage.LIVE
    first = () if live else (DEAD,)
    found = (_LIVE.get(family) if live else None) or _FAMILY.get(family)
    if found is None:
        return first
    title, lines = found
    return (*first, Caution(f"{stage}: {family}", title, lines))


GATE = (
    "Live testing is live work: 230 V within reach of your hands.",
    "The dead tests come first, and have to be satisfactory. What was isolated stays locked off "
    "until it "
    "is meant to go live. It was proved dead before it was touched.",
    "A person competent in live testing does it, or is beside you. Covers stay on as far as "
    "possible. GS38 leads and indicator, nobody else near.",
    COMPETENT,
    "No live test in rain, on wet ground or with wet hands; none from a ladder.",
    LOCAL,
)
"""What stands beside the question before the live tests."""

HELP = f"{SHOCK}\n\n{TINGLE}"
"""What the help of every bench ends with."""
