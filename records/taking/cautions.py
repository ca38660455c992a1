"""What a person must be told at the place where they could be hurt: short, and in our own words."""

from __future__ import annotations

from dataclasses import dataclass

from records.taking.families import Family
from records.terms import Stage

LOCAL = "Local rules and a competent person on the spot go before this screen."
STOP = (
    "Voltage where there should be none, more than a few volts between N and earth, a tingle: "
    "stop, leave it off, keep others away, call the network operator."
)


@dataclass(frozen=True, slots=True)
class Caution:
    """What to make sure of before an act."""

    key: str
    """Which act; it is shown once in a sitting."""
    title: str
    lines: tuple[str, ...]


DEAD = Caution(
    "dead",
    "Before the first dead test",
    (
        "Switch off, lock off, keep the key, leave a notice. Other sources too: solar, battery, "
        "generator, a second feed.",
        "Prove dead at the place of work: proving unit, then L-N, L-E, N-E, then the proving unit "
        "again. A proper two-pole indicator; a volt-stick or a multimeter is not enough.",
        "Test the leads: tips joined, then apart. An open lead looks like perfect insulation.",
        LOCAL,
    ),
)

_FAMILY: dict[Family, tuple[str, tuple[str, ...]]] = {
    Family.INSULATION: (
        "Before the insulation tests",
        (
            "The tester puts 500 V d.c. on the conductors: it hurts, and it destroys electronics.",
            "Lamps, drivers, surge protection, chargers and appliances out. Neutrals out of the "
            "bar. Nobody else at any end of the cable.",
            "Hold the test button until the reading is steady; let the tester discharge the cable "
            "before you touch it.",
            LOCAL,
        ),
    ),
    Family.ELECTRODE: (
        "Before the electrode test",
        (
            "The electrode is taken off: the outbuilding has no earth meanwhile. Isolate it whole "
            "and lock it off first.",
            "Put the earthing conductor back at once and tighten it, before anything is live.",
            LOCAL,
        ),
    ),
    Family.SUPPLY: (
        "Before Ze",
        (
            "The WHOLE installation is isolated and locked off: main switch and any other source.",
            "Only then the earthing conductor comes off its bar. While it is off, no metal in the "
            "building is earthed.",
            "The incoming terminals stay live: covers on as far as possible, GS38 leads, a second "
            "person who knows.",
            "Afterwards the earth goes back FIRST. The next question is whether it did.",
            LOCAL,
        ),
    ),
    Family.ENERGISE: (
        "Before you energise the board",
        (
            "Every dead test right, every cover on, every earth and bond back and tight, every "
            "breaker off. Nobody works on a circuit.",
            "Say aloud that it is going live. Then the main switch, and polarity first, before "
            "any circuit is switched on.",
            STOP,
            LOCAL,
        ),
    ),
    Family.BOARD_LOOP: (
        "Before the loop tests at the board",
        (
            "Live terminals within reach: covers on as far as possible, GS38 probes, no jewellery, "
            "one hand where you can, a second person.",
            "All earths connected. A break in the earth can make all metalwork live during the "
            "test: nobody touches any.",
            LOCAL,
        ),
    ),
    Family.LOOP: (
        "Before the loop tests at the far points",
        (
            "Only circuits whose dead tests are right. An open cpc makes the metal of the "
            "appliance live while you test.",
            "Use a plug-in adaptor where there is a socket. Switch one circuit on at a time.",
            "Low can be wrong too: below the board's own loop, or a fraction of an ohm on an "
            "earth electrode, means stop and look.",
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
}


def before(stage: Stage, family: Family) -> tuple[Caution, ...]:
    """Return what must be read before the first reading of a family at a stage, in order."""
    first = () if stage is Stage.LIVE else (DEAD,)
    if family not in _FAMILY:
        return first
    title, lines = _FAMILY[family]
    return (*first, Caution(f"{stage}: {family}", title, lines))


GATE = (
    "Live testing is live work: 230 V within reach of your hands.",
    "The dead tests come first, and have to be right. What was isolated stays locked off until it "
    "is meant to go live; it was proved dead before it was touched.",
    "A person competent in live testing does it, or stands beside; covers stay on as far as "
    "possible; GS38 leads and indicator; nobody else near.",
    LOCAL,
)
"""What stands beside the question before the live tests."""
