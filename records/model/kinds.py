"""The kinds of value that a record holds, each with its unit or its rule in the type."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Annotated, Any, LiteralString, Self, cast

from pydantic import AfterValidator, AwareDatetime, BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from records.errors import BadText
from records.text import checked_text
from records.units import Unit


@dataclass(frozen=True, slots=True)
class In:
    """Says in which unit a number stands in the record."""

    unit: Unit

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        return {**handler(schema), "unit": self.unit.value}


MOST_IN_LIST = 400
"""Entries of a list inside another entry, such as the points of a circuit."""
MOST_ENTRIES = 20_000
"""Entries of a list that grows with the readings."""


class Piece(BaseModel):
    """The base of all that a record is made of: frozen, nothing unknown, nothing endless."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        defer_build=True,
        validate_default=False,
    )

    @classmethod
    def blank(cls) -> Self:
        """Return a piece in which nothing is entered.

        It needs no check. To have it checked would build a checker for each kind of piece before
        the one for the whole record, and that is felt when a record is opened.
        """
        return cast(Self, cls.model_construct())


def _text(value: str) -> str:
    try:
        return checked_text(value)
    except BadText as error:
        raise ValueError(str(error)) from None


Text = Annotated[str, Field(strict=True), AfterValidator(_text)]
Id = Annotated[str, Field(strict=True, pattern=r"^[A-Z][0-9]{1,5}$")]


def _iso(pattern: re.Pattern[str], kind: LiteralString, value: Any) -> Any:
    if isinstance(value, date) or (isinstance(value, str) and pattern.fullmatch(value)):
        return value
    raise PydanticCustomError(kind, "no date as ISO 8601 writes it")


_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_MOMENT = re.compile(
    r"\d{4}-\d\d-\d\d[Tt ]\d\d:\d\d(?::\d\d(?:[.,]\d{1,9})?)?(?:[Zz]|[+-]\d\d:?\d\d)?"
)

Day = Annotated[date, BeforeValidator(partial(_iso, _DAY, "date_type"))]
"""A day as ISO 8601 writes it; bare digits would be taken for seconds since 1970."""
Moment = Annotated[AwareDatetime, BeforeValidator(partial(_iso, _MOMENT, "datetime_type"))]
"""A day and time with its zone, as ISO 8601 writes them."""

Ohms = Annotated[float, In(Unit.OHM), Field(strict=True, ge=0, le=100_000)]
Metres = Annotated[float, In(Unit.METRE), Field(strict=True, gt=0, le=2_000)]
Distance = Annotated[float, In(Unit.METRE), Field(strict=True, ge=0, le=2_000)]
Depth = Annotated[float, In(Unit.METRE), Field(strict=True, gt=0, le=3)]
SquareMillimetres = Annotated[float, In(Unit.SQUARE_MILLIMETRE), Field(strict=True, gt=0, le=300)]
Amperes = Annotated[float, In(Unit.AMPERE), Field(strict=True, gt=0, le=1_000)]
MilliAmperes = Annotated[float, In(Unit.MILLIAMPERE), Field(strict=True, gt=0, le=1_000)]
Milliseconds = Annotated[float, In(Unit.MILLISECOND), Field(strict=True, gt=0, le=5_000)]
KiloAmperes = Annotated[float, In(Unit.KILOAMPERE), Field(strict=True, gt=0, le=100)]
Volts = Annotated[float, In(Unit.VOLT), Field(strict=True, gt=0, le=1_000)]
Celsius = Annotated[float, In(Unit.CELSIUS), Field(strict=True, ge=-10, le=40)]
Surroundings = Annotated[float, In(Unit.CELSIUS), Field(strict=True, ge=-10, le=80)]
"""Of a cable: under a hot roof it is far hotter than anybody tests in."""
KiloWatts = Annotated[float, In(Unit.KILOWATT), Field(strict=True, gt=0, le=100)]
SoilResistivity = Annotated[float, In(Unit.KELVIN_METRE_PER_WATT), Field(strict=True, ge=0.5, le=3)]
Millimetres = Annotated[float, In(Unit.MILLIMETRE), Field(strict=True, ge=0, le=10_000)]
Percent = Annotated[float, In(Unit.PERCENT), Field(strict=True, ge=0, le=100)]
Count = Annotated[int, Field(strict=True, ge=1, le=40)]
