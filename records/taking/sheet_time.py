"""When a reading was taken, as spreadsheets write it: they like to turn dates round."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from records.days import moment_words, read_moment
from records.errors import BadQuantity, BadRecord
from records.habits import DayOrder
from records.store.showing import shown

_RIGHT = "Write day and time, like 5/3/26 14:30 or 2026-03-05 14:30."


class TwoOrders(BadRecord):
    """A column of dates that can be read in both orders, and means other days in each."""


def moment(text: str, now: datetime, order: DayOrder | None) -> datetime:
    """Return the moment that a cell means, on this machine's clock.

    Args:
        text: As it stands in the cell.
        now: The present moment; nothing was taken after it.
        order: How the column is written; None: each cell as it can be read.
    Raises:
        BadQuantity: If it is no day and time, or is still to come.
    """
    if re.fullmatch(r"[\d:.h]+\s*([ap]m)?", text.strip().casefold()):
        # The sheet may have been filled in days ago: a time alone doesn't say of which day.
        raise BadQuantity(f"“taken at” says “{shown(text)}”, without a day. {_RIGHT}")
    try:
        found = read_moment(text, now, order).astimezone()
    except (BadQuantity, OverflowError, OSError, ValueError):
        raise BadQuantity(f"“taken at” says “{shown(text)}”. {_RIGHT}") from None
    if found > now + timedelta(minutes=1):
        raise BadQuantity(
            f"“taken at” says “{shown(text)}”: {moment_words(found)} is still to come. {_RIGHT}"
        )
    return found


@dataclass(frozen=True, slots=True)
class TimeCell:
    """A cell of the column “taken at”."""

    line: int
    text: str
    known: datetime | None = None
    """When the reading of this row was taken, if it is on record."""


def order_of(column: Sequence[TimeCell], now: datetime) -> DayOrder | None:
    """Return the order in which a whole column of times is written.

    Args:
        column: Its cells that are not empty. One whose reading is on record rules the order out
            that makes another time of it.
        now: The present moment.
    Returns:
        The order; None if each cell can be read in one way only, whatever the order.
    Raises:
        TwoOrders: If a cell means another time in each order, and no other cell says which.
    """
    both = [(cell, *_both(cell, now)) for cell in column]
    day_only = any(one is not None and other is None for _, one, other in both)
    month_only = any(one is None and other is not None for _, one, other in both)
    for cell, one, other in both:
        if one is None or other is None or one == other:
            continue
        if day_only != month_only:
            return DayOrder.DAY_FIRST if day_only else DayOrder.MONTH_FIRST
        raise TwoOrders(
            f"“taken at” can be read two ways. “{shown(cell.text)}” on line {cell.line} is "
            f"{moment_words(one)} with the day first, {moment_words(other)} with the month "
            "first. Say which with --dates day-first or --dates month-first. Nothing was taken."
        )
    return None


def _both(cell: TimeCell, now: datetime) -> tuple[datetime | None, datetime | None]:
    """Return what a cell means with the day first, and with the month first."""
    one = _moment_or_none(cell.text, now, DayOrder.DAY_FIRST)
    other = _moment_or_none(cell.text, now, DayOrder.MONTH_FIRST)
    if cell.known is not None and one is not None and other is not None:
        was = moment_words(cell.known.astimezone())
        right = [moment_words(each) == was for each in (one, other)]
        if any(right):
            return one if right[0] else None, other if right[1] else None
    return one, other


def _moment_or_none(text: str, now: datetime, order: DayOrder | None) -> datetime | None:
    try:
        return moment(text, now, order)
    except BadQuantity:
        return None
