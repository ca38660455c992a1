"""The trade's fixed choices. Each value is the word that a person and the record file read."""

from __future__ import annotations

from enum import StrEnum


class Word(StrEnum):
    """A fixed choice; it hashes as the text it equals, which is also much the fastest way."""

    __hash__ = str.__hash__


class Earthing(Word):
    """How the supply is earthed (IEC 60364-1, clause 312.2)."""

    TN_S = "TN-S"
    TN_C_S = "TN-C-S"
    TT = "TT"


class OutbuildingEarth(Word):
    """Where the earth of the outbuilding comes from."""

    CARRIED_OVER = "carried over by the feed"
    OWN_ELECTRODE = "own earth electrode"


class ArmourEarthed(Word):
    """At which end of the feed its armour is joined to an earth."""

    HOUSE = "at the house"
    OUTBUILDING = "at the outbuilding"
    BOTH = "at both ends"
    NEITHER = "at neither end"


class Symptom(Word):
    """What somebody noticed of an installation in use."""

    RAIN = "trips in rain or damp"
    SWITCHED_ON = "trips when something is switched on"
    HOT = "hot socket or smell of burning"
    FLICKER = "lights flicker or dim"
    TINGLE = "tingle or shock from metal"


class EarthingLaid(Word):
    """How the earthing conductor to an electrode lies (BS 7671, Table 54.1)."""

    NOT_BURIED = "not in the ground"
    PROTECTED = "in the ground, sheathed and in a duct"
    SHEATHED = "in the ground, sheathed"
    BARE = "in the ground, bare"


class DeviceKind(Word):
    """A protective device by the standard and the curve it is made to."""

    BREAKER_B = "circuit-breaker type B"
    BREAKER_C = "circuit-breaker type C"
    BREAKER_D = "circuit-breaker type D"
    RCBO_B = "RCBO type B"
    RCBO_C = "RCBO type C"
    RCBO_D = "RCBO type D"
    BS_88_2 = "BS 88-2 fuse"
    BS_88_3 = "BS 88-3 fuse"
    BS_88_2_2 = "BS 88-2.2 fuse, before 2010"
    BS_1361 = "BS 1361 fuse, before 2010"
    BS_3036 = "BS 3036 fuse"
    BS_1362 = "BS 1362 fuse"

    @property
    def is_rcbo(self) -> bool:
        """Whether a residual current part is built in."""
        return self in _RCBOS

    @property
    def is_fuse(self) -> bool:
        """Whether it is a fuse (as against a circuit-breaker or an RCBO)."""
        return self in _FUSES

    @property
    def curve(self) -> str | None:
        """B, C or D for a circuit-breaker or an RCBO; None for a fuse."""
        return None if self.is_fuse else self.value[-1]


_RCBOS = frozenset((DeviceKind.RCBO_B, DeviceKind.RCBO_C, DeviceKind.RCBO_D))
_FUSES = frozenset(
    (
        DeviceKind.BS_88_2,
        DeviceKind.BS_88_3,
        DeviceKind.BS_88_2_2,
        DeviceKind.BS_1361,
        DeviceKind.BS_3036,
        DeviceKind.BS_1362,
    )
)


class RcdType(Word):
    """The waveforms of residual current that an RCD responds to (not the curve of a breaker)."""

    AC = "AC"
    A = "A"
    F = "F"
    B = "B"


class RcdStandard(Word):
    """The standard that an RCD is made to: it sets the time it may take."""

    EN_61008 = "BS EN 61008-1 or BS EN 61009-1"
    BS_4293 = "BS 4293"
    BS_7288 = "BS 7288"


class CableKind(Word):
    """How a cable is made; it decides resistance, rating, and what can serve as cpc."""

    FLAT = "flat twin-and-earth, 70 °C"
    SINGLES = "single cores in conduit or trunking, 70 °C"
    FLEX = "flexible cable, 60 °C"
    SWA_XLPE = "steel-wire armoured, XLPE 90 °C"
    SWA_PVC = "steel-wire armoured, PVC 70 °C"

    @classmethod
    def _missing_(cls, value: object) -> CableKind | None:
        """Return flexible cable for what older records call it, from when it was taken as 70 °C."""
        return cls.FLEX if value == "flexible cable, 70 °C" else None

    @property
    def is_armoured(self) -> bool:
        """Whether it has a steel-wire armour that can serve as protective conductor."""
        return self in (CableKind.SWA_XLPE, CableKind.SWA_PVC)


class Cpc(Word):
    """What carries an earth fault current back along a run."""

    CORE = "a core of the cable"
    SEPARATE = "a separate conductor"
    ARMOUR = "the armour alone"
    CORE_AND_ARMOUR = "a core and the armour together"
    NONE = "nothing: the earth is not carried over"


class Method(Word):
    """Reference method of installation (BS 7671 Appendix 4, Table 4A2)."""

    A = "A"
    B = "B"
    C = "C"
    D = "D"
    E = "E"
    M100 = "100"
    M101 = "101"
    M102 = "102"
    M103 = "103"


class Use(Word):
    """What a final circuit feeds."""

    SOCKETS = "sockets"
    LIGHTING = "lighting"
    FIXED = "fixed appliance"


class Form(Word):
    """How a final circuit is laid out."""

    RADIAL = "radial"
    RING = "ring"
    FCU = "radial to a fused connection unit"


class FeedLoad(Word):
    """What the feed is taken to carry where its design current isn't entered."""

    ADDED_UP = "all circuits added up"
    DIVERSITY = "after household diversity"
    RATED = "In of its device"
    TOGETHER = "what runs together"


class LoadKind(Word):
    """What a load is, for how much of it a feed has to carry."""

    SOCKETS = "sockets"
    LIGHTING = "lighting"
    COOKING = "cooking"
    INSTANT_WATER = "instantaneous water heater"
    STORED_WATER = "storage water heater"
    SPACE_HEATING = "space heating"
    STORAGE_HEATING = "storage heating"
    FLOOR_WARMING = "floor warming"
    MOTOR = "motor"
    VEHICLE = "vehicle charging"
    MACHINE = "fixed machine"
    OTHER = "other"


class Stage(Word):
    """When in the work a reading is taken."""

    BEFORE_COVERING = "before covering"
    DEAD = "dead tests"
    LIVE = "live tests"


class Part(Word):
    """A part of the installation that has readings of its own."""

    ORIGIN = "origin"
    FEED = "feed"
    BOARD = "board"
    CIRCUIT = "circuit"


class Step(Word):
    """The ten steps of the walk, in the order of the work."""

    JOB = "Job"
    ORIGIN = "Origin"
    FEED = "Feed"
    BOARD = "Board"
    CIRCUITS = "Circuits"
    BEFORE_COVERING = "Before covering"
    DEAD_TESTS = "Dead tests"
    LIVE_TESTS = "Live tests"
    REVIEW = "Review"
    HAND_OVER = "Hand over"


STEP_OF_STAGE = {
    Stage.BEFORE_COVERING: Step.BEFORE_COVERING,
    Stage.DEAD: Step.DEAD_TESTS,
    Stage.LIVE: Step.LIVE_TESTS,
}
"""At which step the readings of a stage are taken."""


class Sign(Word):
    """What stands before a figure on the meter."""

    EQUAL = "="
    OVER = ">"
    UNDER = "<"


class Verdict(Word):
    """What a reading, or a design value, means."""

    OUTSIDE = "outside"
    UNLIKELY = "unlikely"
    NEAR = "near limit"
    NOT_TAKEN = "not taken"
    WITHIN = "within"
    NOT_NEEDED = "not needed"

    @property
    def mark(self) -> str:
        """A sign for the verdict that needs no colour."""
        return _MARKS[self]

    @property
    def is_finding(self) -> bool:
        """Whether somebody must deal with it."""
        return self in (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NEAR, Verdict.NOT_TAKEN)


_MARKS = {
    Verdict.OUTSIDE: "✗",
    Verdict.UNLIKELY: "?",
    Verdict.NEAR: "!",
    Verdict.NOT_TAKEN: "·",
    Verdict.WITHIN: "✓",
    Verdict.NOT_NEEDED: "–",
}


class WorkKind(Word):
    """What kind of work was done about a finding: it says which tests are to be repeated."""

    DEVICE = "device"
    JOINT = "joint"
    CABLE = "cable"
    POINT = "point"
    EARTH = "earth"
    OTHER = "other"
    MISREAD = "misread"

    @property
    def words(self) -> str:
        """How it is shown; what is stored stays."""
        return _WORK[self]


_WORK = {
    WorkKind.DEVICE: "device changed",
    WorkKind.JOINT: "gland or joint remade",
    WorkKind.CABLE: "cable changed or cut",
    WorkKind.POINT: "point moved",
    WorkKind.EARTH: "earth or bond touched",
    WorkKind.OTHER: "other work",
    WorkKind.MISREAD: "first reading was wrong",
}


class Basis(Word):
    """How far a published figure can be trusted."""

    READ = "read in a secondary copy, not in the standard itself"
    MEMORY = "from memory"
    WORKED_OUT = "worked out by the formula named"
    COMMON_PRACTICE = "common practice"
    ENTERED = "as entered in this record"
