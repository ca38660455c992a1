"""What a tester types for a figure (`.35`, `0,35`, `>999`): read, or refused, never guessed."""

from __future__ import annotations

import re
from dataclasses import dataclass

from records.errors import BadQuantity, BadText
from records.habits import HABITS, Comma
from records.terms import Sign
from records.text import checked_text
from records.units import Unit, factor, spellings

_FIGURE = re.compile(
    r"([<>]?)\s*([+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))\s*"
    r"([^\s0-9.,<>=](?:[^0-9.,<>=]|\.(?=[a-zA-Z]))*[²2]?)?"  # a point inside a unit: K.m/W
)
_FIGURE_THEN_WORDS = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*[a-zA-ZΩ]*\s+[a-zA-Z]{2,}")
_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_ENDLESS = {"ol", "o.l", "o/l", "inf", "infinity", "∞", "over", "o.l."}
_EXAMPLES = {Unit.OHM: "0.35 or 350 mohm", Unit.MEGOHM: "250, or >999 as the meter shows it"}


@dataclass(frozen=True, slots=True)
class Typed:
    """A figure as understood: its sign, its value in the field's unit, and as typed."""

    sign: Sign
    value: float
    raw: str


def read_typed(text: str, unit: Unit, *, signs: bool = False) -> Typed:
    """Return the figure in `text`, in `unit`; a bare figure is in `unit` already.

    Args:
        text: What a person typed or pasted.
        unit: The unit of the field.
        signs: Whether the field takes `>` (over the meter's range) and `<`.
    Raises:
        BadQuantity: If it is no single figure of this unit; the message says what would be right.
    """
    try:
        raw = checked_text(text)  # a message must not carry an escape code to the screen
    except BadText as error:
        raise BadQuantity(str(error)) from None
    plain = raw.replace("\N{MINUS SIGN}", "-").replace("\N{NO-BREAK SPACE}", " ")
    kind = unit.value or "a plain number"
    example = _EXAMPLES.get(unit, f"12.5 {unit.value}".strip())
    if plain.casefold() in _ENDLESS:
        if signs:
            raise BadQuantity(f"“{raw}”: type > and the top of the meter's range, such as >999.")
        raise BadQuantity(
            f"“{raw}” is no figure that this field can take: type {kind}, like {example}."
        )
    match = _FIGURE.fullmatch(plain)
    lead = _FIGURE_THEN_WORDS.match(plain)
    if match is None and lead is not None and len(plain) <= 40:
        raise BadQuantity(
            f"“{raw}” is more than this field takes: type the figure alone, like "
            f"{lead.group(1)} {unit.value}".rstrip()
            + ". Words go under Note."
        )
    if match is None or len(plain) > 40:
        raise BadQuantity(f"“{raw[:40]}” is not one figure: type {kind}, like {example}.")
    sign, number, word = match.group(1), match.group(2), (match.group(3) or "").strip()
    if sign and not signs:
        raise BadQuantity(f"“{raw}”: this field takes a plain figure, without {sign}.")
    if _THOUSANDS.fullmatch(number):
        whole, part = number.split(",")
        number = {Comma.DECIMAL: f"{whole}.{part}", Comma.THOUSANDS: f"{whole}{part}"}.get(
            HABITS.comma, number
        )
    if _THOUSANDS.fullmatch(number):
        raise BadQuantity(
            f"“{raw}” could be {whole}.{part} or {whole}{part}: type it with a point, "
            "or without the comma."
        )
    if word in ("m", "M") and factor(word, unit) is None:
        raise BadQuantity(_lone(word, number, unit, raw))
    times = factor(word, unit)
    if times is None:
        folded = {name.casefold(): name for name in spellings(unit) if name[0] not in "mM"}
        times = factor(folded[word.casefold()], unit) if word.casefold() in folded else None
    if times is None:
        known = ", ".join(spellings(unit)[:6]) or "no unit"
        raise BadQuantity(f"“{word}” is not a unit for this field: it takes {known}.")
    return Typed(Sign(sign or "="), _scaled(float(number.replace(",", ".")), times), raw)


def _scaled(number: float, times: float) -> float:
    # 350 × 0.001 is 0.35000000000000003 in binary: 12 digits are more than any meter has.
    return number if times == 1.0 else float(f"{number * times:.12g}")


def _lone(word: str, number: str, unit: Unit, raw: str) -> str:
    if unit is Unit.OHM:
        small, large = f"{number} mohm", f"{number} Mohm"
        return (
            f"“{raw}”: a lone {word} could mean two things here, {small} (thousandths) or {large} "
            "(millions). Type the one you mean, or plain ohms."
        )
    wanted = unit.value or "plain digits"
    return f"“{raw}”: a lone {word} does not say what is meant: type the figure in {wanted}."
