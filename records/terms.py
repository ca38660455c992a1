"""The trade's fixed choices: a code, which the record file holds, and the words that are shown.

The code never changes. The words may: a change of wording is no new form of the file.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Any, Self

from records.older_words import codes_of


class Word(StrEnum):
    """A fixed choice: as text it is its code, `value` is what a person reads.

    It hashes as the code it equals, which is also much the fastest way.
    """

    def __new__(cls, code: str, words: str = "") -> Self:
        """Take a code, and the words for it where they differ."""
        member = str.__new__(cls, code)
        member._value_ = words or code
        return member

    __hash__ = str.__hash__

    def __str__(self) -> str:
        return str(self._value_)

    def __format__(self, spec: str) -> str:
        return format(str(self._value_), spec)

    @property
    def code(self) -> str:
        """What a record file holds."""
        return str.__str__(self)

    @property
    def words(self) -> str:
        """What a person reads."""
        return str(self._value_)

    @classmethod
    def _missing_(cls, value: object) -> Self | None:
        """Return the choice that a code, or the word of an older record, stands for."""
        return cls.known().get(value) if isinstance(value, str) else None

    @classmethod
    def known(cls) -> dict[object, Self]:
        """Return the choices by code, and by what older records say."""
        found: dict[object, Self] = {each.code: each for each in cls}
        return found | {old: found[code] for old, code in codes_of(cls.__name__).items()}

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: Any) -> Any:
        """Read a code, or an older word; write the code."""
        from pydantic_core import PydanticKnownError, core_schema

        known = cls.known()
        expected = ", ".join(repr(each.code) for each in cls)

        def read(given: Any) -> Word:
            try:
                return known[given]
            except (KeyError, TypeError):
                raise PydanticKnownError("enum", {"expected": expected}) from None

        return core_schema.no_info_plain_validator_function(
            read, serialization=core_schema.simple_ser_schema("str")
        )

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: Any, handler: Any) -> dict[str, Any]:
        """Return the codes, and the words in the same order."""
        return {
            "enum": [each.code for each in cls],
            "title": cls.__name__,
            "type": "string",
            "description": "; ".join(f"{each.code}: {each.words}" for each in cls),
        }


class Earthing(Word):
    """How the supply is earthed (IEC 60364-1, clause 312.2)."""

    TN_S = "TN-S"
    TN_C_S = "TN-C-S"
    TT = "TT"


class OutbuildingEarth(Word):
    """Where the earth of the outbuilding comes from."""

    CARRIED_OVER = "exported", "exported through the feed"
    OWN_ELECTRODE = "electrode", "earth electrode (TT)"


class ArmourEarthed(Word):
    """At which end of the feed its armour is joined to an earth."""

    HOUSE = "house", "at the house"
    OUTBUILDING = "outbuilding", "at the outbuilding"
    BOTH = "both", "at both ends"
    NEITHER = "neither", "at neither end"


class Symptom(Word):
    """What somebody noticed of an installation in use."""

    RAIN = "rain", "trips in rain or damp"
    SWITCHED_ON = "switched-on", "trips when something is switched on"
    HOT = "hot", "hot socket or smell of burning"
    FLICKER = "flicker", "lights flicker or dim"
    TINGLE = "tingle", "tingle or shock from metal"


class EarthingLaid(Word):
    """How the earthing conductor to an electrode lies (BS 7671, Table 54.1)."""

    NOT_BURIED = "not-buried", "not in the ground"
    PROTECTED = "protected", "in the ground, sheathed and in a duct"
    SHEATHED = "sheathed", "in the ground, sheathed"
    BARE = "bare", "in the ground, bare"


class DeviceKind(Word):
    """A protective device by the standard and the curve it is made to."""

    BREAKER_B = "breaker-b", "circuit-breaker type B"
    BREAKER_C = "breaker-c", "circuit-breaker type C"
    BREAKER_D = "breaker-d", "circuit-breaker type D"
    RCBO_B = "rcbo-b", "RCBO type B"
    RCBO_C = "rcbo-c", "RCBO type C"
    RCBO_D = "rcbo-d", "RCBO type D"
    BS_88_2 = "bs-88-2", "BS 88-2 fuse"
    BS_88_3 = "bs-88-3", "BS 88-3 fuse"
    BS_88_2_2 = "bs-88-2.2", "BS 88-2.2 fuse, before 2010"
    BS_1361 = "bs-1361", "BS 1361 fuse, before 2010"
    BS_3036 = "bs-3036", "BS 3036 fuse"
    BS_1362 = "bs-1362", "BS 1362 fuse"

    @property
    def is_rcbo(self) -> bool:
        """Whether an RCD part is built in."""
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

    EN_61008 = "bs-en-61008", "BS EN 61008-1 or BS EN 61009-1"
    BS_4293 = "bs-4293", "BS 4293"
    BS_7288 = "bs-7288", "BS 7288"


class CableKind(Word):
    """How a cable is made; it decides resistance, rating, and what can serve as cpc."""

    FLAT = "flat", "flat twin-and-earth, 70 °C"
    SINGLES = "singles", "single cores in conduit or trunking, 70 °C"
    FLEX = "flex", "flexible cable, 60 °C"
    SWA_XLPE = "swa-xlpe", "steel-wire armoured, XLPE 90 °C"
    SWA_PVC = "swa-pvc", "steel-wire armoured, PVC 70 °C"

    @property
    def is_armoured(self) -> bool:
        """Whether it has a steel-wire armour that can serve as protective conductor."""
        return self in (CableKind.SWA_XLPE, CableKind.SWA_PVC)


class Cpc(Word):
    """What carries an earth fault current back along a run."""

    CORE = "core", "a core of the cable"
    SEPARATE = "separate", "a separate conductor"
    ARMOUR = "armour", "the armour alone"
    CORE_AND_ARMOUR = "core-and-armour", "a core and the armour together"
    NONE = "none", "earth not exported"


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
    FIXED = "fixed", "fixed appliance"


class Form(Word):
    """How a final circuit is laid out."""

    RADIAL = "radial"
    RING = "ring"
    FCU = "fcu", "spur from a fused connection unit"


class FeedLoad(Word):
    """What the feed is taken to carry where its design current isn't entered."""

    ADDED_UP = "added-up", "all circuits added up"
    DIVERSITY = "diversity", "after household diversity"
    RATED = "rated", "In of its device"
    TOGETHER = "together", "what runs together"


class LoadKind(Word):
    """What a load is, for how much of it a feed has to carry."""

    SOCKETS = "sockets"
    LIGHTING = "lighting"
    COOKING = "cooking"
    INSTANT_WATER = "instant-water", "instantaneous water heater"
    STORED_WATER = "stored-water", "storage water heater"
    SPACE_HEATING = "space-heating", "space heating"
    STORAGE_HEATING = "storage-heating", "storage heating"
    FLOOR_WARMING = "floor-warming", "floor warming"
    MOTOR = "motor"
    VEHICLE = "vehicle", "vehicle charging"
    MACHINE = "machine", "fixed machine"
    OTHER = "other"


class Stage(Word):
    """When in the work a reading is taken."""

    BEFORE_COVERING = "before-covering", "before covering"
    DEAD = "dead", "dead tests"
    LIVE = "live", "live tests"


class Part(Word):
    """A part of the installation that has readings of its own."""

    ORIGIN = "origin"
    FEED = "feed"
    BOARD = "board"
    CIRCUIT = "circuit"


class Step(Word):
    """The ten steps of the walk, in the order of the work."""

    JOB = "job", "Job"
    ORIGIN = "origin", "Origin"
    FEED = "feed", "Feed"
    BOARD = "board", "Board"
    CIRCUITS = "circuits", "Circuits"
    BEFORE_COVERING = "before-covering", "Before covering"
    DEAD_TESTS = "dead-tests", "Dead tests"
    LIVE_TESTS = "live-tests", "Live tests"
    REVIEW = "review", "Review"
    HAND_OVER = "hand-over", "Hand over"


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
    NEAR = "near", "near limit"
    NOT_TAKEN = "not-taken", "not taken"
    WITHIN = "within"
    NOT_NEEDED = "not-needed", "not needed"

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

    DEVICE = "device", "device changed"
    JOINT = "joint", "gland or joint remade"
    CABLE = "cable", "cable changed or cut"
    POINT = "point", "point moved"
    EARTH = "earth", "earth or bond touched"
    OTHER = "other", "other work"
    MISREAD = "misread", "first reading was wrong"


class Basis(Word):
    """How far a published figure can be trusted."""

    READ = "read in a secondary copy, not in the standard itself"
    MEMORY = "from memory"
    WORKED_OUT = "calculated by the formula named"
    COMMON_PRACTICE = "common practice"
    ENTERED = "as entered in this record"
