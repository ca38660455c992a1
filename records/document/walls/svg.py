"""Pages as one SVG file, in millimetres: what is measured on the print is to scale."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

from records.document.walls.shapes import Line, Page, Part, Ring, Shape, Spot, Words, wide

_FONT = "Liberation Sans, Arial, Helvetica, sans-serif"


def svg(pages: Sequence[Page]) -> str:
    """Return pages, one below the other, as an SVG document."""
    width = max(each.width for each in pages)
    height = sum(each.height for each in pages)
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="0 0 {width:g} {height:g}" font-family={quoteattr(_FONT)}>',
        f"<title>{escape('; '.join(each.title for each in pages))}</title>",
        f'<rect width="{width:g}" height="{height:g}" fill="#ffffff"/>',
    ]
    top = 0.0
    for page in pages:
        lines.append(f'<g class="page" transform="translate(0 {top:g})">')
        lines += [_part(each) for each in page.parts]
        lines.append("</g>")
        top += page.height
    return "\n".join([*lines, "</svg>", ""])


def _part(part: Part) -> str:
    match part:
        case Line():
            (x0, y0), (x1, y1) = part.start, part.end
            return (
                f'<line {_named(part.kind, part.name)} x1="{_n(x0)}" y1="{_n(y0)}" x2="{_n(x1)}" '
                f'y2="{_n(y1)}" stroke="{part.ink}" stroke-width="{part.thick:g}"'
                f"{_dash(part.dash)}/>"
            )
        case Shape():
            ink = "none" if part.ink is None else part.ink
            return (
                f'<polygon {_named(part.kind, part.name)} points="{_points(part.corners)}" '
                f'fill="{part.fill or "none"}" stroke="{ink}" stroke-width="{part.thick:g}"'
                f"{_dash(part.dash)}/>"
            )
        case Ring():
            x, y = part.centre
            return (
                f'<circle {_named(part.kind, part.name)} cx="{_n(x)}" cy="{_n(y)}" '
                f'r="{_n(part.radius)}" fill="{part.fill or "none"}" stroke="#000000" '
                f'stroke-width="{part.thick:g}"/>'
            )
        case Words():
            return _words(part)


def _words(part: Words) -> str:
    x, y = part.at
    behind = ""
    if part.ground:
        long = wide(part.text, part.size)
        left = x - {"start": 0.0, "middle": long / 2, "end": long}[part.anchor]
        behind = (
            f'<rect x="{_n(left - 0.3)}" y="{_n(y - part.size * 0.6)}" width="{_n(long + 0.6)}" '
            f'height="{_n(part.size * 1.2)}" fill="#ffffff"/>\n'
        )
    bold = ' font-weight="bold"' if part.bold else ""
    return (
        f'{behind}<text x="{_n(x)}" y="{_n(y)}" font-size="{part.size:g}" '
        f'text-anchor="{part.anchor}" dominant-baseline="central"{bold}>{escape(part.text)}</text>'
    )


def _named(kind: str, name: str) -> str:
    return f"class={quoteattr(kind)}" + (f" data-name={quoteattr(name)}" if name else "")


def _dash(dash: tuple[float, ...]) -> str:
    return f' stroke-dasharray="{" ".join(f"{each:g}" for each in dash)}"' if dash else ""


def _points(corners: tuple[Spot, ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in corners)


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
