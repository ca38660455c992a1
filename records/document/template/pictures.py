"""The sheet of pictures: curves and rings two in a row, each loop as a bar beside its words."""

from __future__ import annotations

from records.document.template.pieces import (
    TEXT_WIDTH,
    Column,
    cell,
    heading_row,
    para,
    row,
    table,
    tag,
    tag_row,
)

WIDE = TEXT_WIDTH["portrait"]
_HALF = WIDE / 2
_PAIR = (Column("", _HALF), Column("", _HALF))
_LOOP = (Column("Where", 27), Column("Against its limit", 88), Column("In words", WIDE - 115))


def pictures() -> str:
    """Return the sheet."""
    return "".join(
        (
            para("Pictures", style="Heading1", new_page=True),
            para(
                "Drawn from the same figures as the tables, for a quick look; the tables count. A "
                "hollow mark or the upper bar is by the design, a solid mark or the lower bar by "
                "the readings so far.",
                style="Lead",
            ),
            tag("{%p if not pictures.curves and not pictures.loops and not pictures.rings %}"),
            para("Nothing can be drawn yet."),
            tag("{%p endif %}"),
            tag("{%p if pictures.curves %}"),
            para("Time and current", style="Heading2"),
            para(
                "Heavy line: by then the overcurrent device has operated (dashed where the tables "
                "claim no shorter time). Long dashes: by then a fault must be off. Slanting lines: "
                "a circuit-breaker may trip at once, or not. Grey: the times of the RCD.",
                style="Lead",
            ),
            _pairs("pictures.curves"),
            tag("{%p endif %}"),
            tag("{%p if pictures.loops %}"),
            para("Loop", style="Heading2"),
            para(
                "Each bar to the scale of its own limit. Dark: source or electrode, or the whole "
                "where it can’t be parted. Then hatched: feed. Blank: circuit. 0.8: the rule of "
                "thumb for a cold reading.",
                style="Lead",
            ),
            table(
                (each.width for each in _LOOP),
                heading_row(_LOOP),
                tag_row("{%tr for picture in pictures.loops %}", _LOOP),
                row(
                    cell("{{ picture.title }}", width=_LOOP[0].width),
                    cell("{{ picture.image }}", width=_LOOP[1].width),
                    cell(*_words("picture"), width=_LOOP[2].width),
                ),
                tag_row("{%tr endfor %}", _LOOP),
            ),
            tag("{%p endif %}"),
            tag("{%p if pictures.rings %}"),
            para("Rings, ends cross-connected", style="Heading2"),
            para(
                "Ring mark and full line: L-N. Square and dashed line: L-cpc. Cross: to look at. A "
                "point on a spur stands above the line by the spur’s own cable.",
                style="Lead",
            ),
            _pairs("pictures.rings"),
            tag("{%p endif %}"),
        )
    )


def _pairs(pairs: str) -> str:
    return table(
        (_HALF, _HALF),
        tag_row("{%tr for pair in " + pairs + " %}", _PAIR),
        row(*(cell(*_picture(f"pair.{side}"), width=_HALF) for side in ("left", "right"))),
        tag_row("{%tr endfor %}", _PAIR),
    )


def _picture(name: str) -> tuple[str, ...]:
    return (
        tag("{%p if " + name + " %}"),
        para("{{ " + name + ".title }}", style="CellStrong"),
        para("{{ " + name + ".image }}", style="Cell"),
        *_words(name),
        tag("{%p endif %}"),
        para("", style="Gap"),
    )


def _words(name: str) -> tuple[str, ...]:
    return (
        tag("{%p for line in " + name + ".words %}"),
        para("{{ line }}", style="CellSmall"),
        tag("{%p endfor %}"),
    )
