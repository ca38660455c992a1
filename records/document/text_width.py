"""How wide a line of text is, in the sans serif that the schedule is set in.

Advances of Liberation Sans (SIL Open Font License; Arial has the same), in thousandths of the size,
measured from the font files. Letters that are not listed count as wide ones.
"""

from __future__ import annotations

_MM_PER_POINT = 25.4 / 72
_FIRST = " "
_REGULAR = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
)  # fmt: skip
"""From the space to ~, in the order of ASCII."""
_BOLD = (
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
)  # fmt: skip
_OTHERS = {"²": 333, "×": 584, "Ω": 802, "·": 278, "–": 556, "≤": 549, "≥": 549, "’": 278, "°": 400}
_WIDE = 1000


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of a line of text [mm]; `size` in points. Errs wide for other letters."""
    table = _BOLD if bold else _REGULAR
    total = 0
    for each in text:
        at = ord(each) - ord(_FIRST)
        total += table[at] if 0 <= at < len(table) else _OTHERS.get(each, _WIDE)
    return total / 1000 * size * _MM_PER_POINT


def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> list[str]:
    """Return a text in lines that fit a width [mm]; a word that is too long is divided."""
    lines = [""]
    for word in text.split():
        for piece in _pieces(word, width, size, bold):
            longer = f"{lines[-1]} {piece}".strip()
            if width_of(longer, size, bold=bold) <= width:
                lines[-1] = longer
            else:
                lines.append(piece)
    return [each for each in lines if each]


def _pieces(word: str, width: float, size: float, bold: bool) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, size, bold=bold) > width:
            pieces.append(letter)
        else:
            pieces[-1] += letter
    return pieces
