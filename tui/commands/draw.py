"""Draws surfaces to scale: where the cables are, where to cut, where not to screw."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from tui.commands.opening import RECORD
from tui.commands.output import check_free, say, write_bytes, write_text
from tui.commands.trouble import Trouble

if TYPE_CHECKING:
    from records.document.walls.shapes import Page
    from records.model.fabric import Surface
    from records.model.record import Record

_KINDS = (".svg", ".png", ".pdf", ".txt")


@click.command()
@click.argument("file", type=RECORD)
@click.option("--surface", "name", help="Name or number of one surface; without it: all.")
@click.option(
    "--sheet",
    type=click.Choice(["cables", "cut", "fixings"]),
    default="cables",
    help="cables: all of it; cut: the cut-out sheet; fixings: where no screw belongs.",
)
@click.option("--from-behind", is_flag=True, help="Seen by whoever faces its other side.")
@click.option("--from-far", is_flag=True, help="Cut-out sheet: measured from the other corner.")
@click.option("-o", "--out", type=RECORD, help="OUT.svg, .png, .pdf or .txt; without it: words.")
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
def draw(
    file: Path,
    name: str | None,
    sheet: str,
    from_behind: bool,
    from_far: bool,
    out: Path | None,
    force: bool,
) -> None:
    """Draw the surfaces of a record to scale, with dimensions from one corner and the floor.

    Without -o, or with OUT.txt, the cut-out sheet and the strips to keep out of come as words.
    """
    from records.document.walls.cut_sheet import cut_text
    from records.store.file import RecordFile
    from records.store.photos import photo_troubles
    from records.store.showing import file_name

    if from_behind and (sheet == "cut" or out is None or out.suffix.lower() == ".txt"):
        raise Trouble("--from-behind is for a drawing: add -o OUT.svg, and no --sheet cut.")
    if out is not None and out.suffix.lower() not in _KINDS:
        raise Trouble(f"{file_name(out)}: end its name in .svg, .png, .pdf or .txt.")
    if out is not None:
        check_free(out, force=force)
    with RecordFile.open(file, read_only=True) as opened:
        record = opened.record
    for trouble in photo_troubles(record, file.parent):
        say(trouble, err=True)
    surfaces = _chosen(record, name)
    if out is None or out.suffix.lower() == ".txt":
        text = "\n\n".join(cut_text(record, each, from_far=from_far) for each in surfaces)
        if out is None:
            say(text)
            return
        write_text(out, text + "\n", force=force)
    else:
        pages = [
            page for each in surfaces for page in _pages(record, each, sheet, from_far, from_behind)
        ]
        _write(out, pages, force=force)
    say(f"{len(surfaces)} surface{'s' if len(surfaces) > 1 else ''} drawn in {file_name(out)}")


def _pages(
    record: Record, surface: Surface, sheet: str, from_far: bool, from_behind: bool
) -> list[Page]:
    from records.document.walls.cut_sheet import cut_pages
    from records.document.walls.drawing import drawing

    if sheet == "cut":
        return cut_pages(record, surface, from_far=from_far)
    return [drawing(record, surface, strips=sheet == "fixings", from_behind=from_behind)]


def _write(out: Path, pages: list[Page], *, force: bool) -> None:
    from records.document.walls.svg import svg

    if out.suffix.lower() == ".svg":
        write_text(out, svg(pages), force=force)
        return
    from records.document.walls.raster import pdf, png

    data = png(pages) if out.suffix.lower() == ".png" else pdf(pages)
    write_bytes(out, data, force=force)


def _chosen(record: Record, name: str | None) -> tuple[Surface, ...]:
    """Return the surfaces that are asked for.

    Raises:
        Trouble: If there is none, or none of that name; it says which there are.
    """
    known = record.fabric.surfaces
    if not known:
        raise Trouble("This record has no surfaces yet: enter them at Before covering, key s.")
    if name is None:
        return known
    asked = name.casefold().strip()
    exact = [each for each in known if asked in (each.id.casefold(), each.name.casefold())]
    found = exact or [each for each in known if each.name.casefold().startswith(asked)]
    if len(found) == 1:
        return (found[0],)
    names = "; ".join(f"{each.id} {each.name}".strip() for each in (found or known))
    raise Trouble(f"“{name}” is {'several surfaces' if found else 'no surface here'}: {names}.")
