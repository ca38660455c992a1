"""What is settled before anything is bought: a page of the feed, with its views."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from records.entering.asked import BUYING as BUYING_FIELDS
from records.entering.model_fields import fields_of
from records.errors import FarboardError
from tui.steps.options import feed_option_rows
from tui.steps.page import Page, Trail

if TYPE_CHECKING:
    from records.model.reading import Place
    from tui.steps.form_step import FormStep

BUYING: Trail = ("before", "buying")
"""Where the page stands in its step."""


def buying_link(step: FormStep, page: Page) -> None:
    """Add the row that opens the page."""
    said = "room left, both earths, list, compare"
    page.link("buying", "Before buying", said, step.opening(BUYING))


def earth_row(step: FormStep, page: Page) -> None:
    """Add the row that shows both earths side by side."""
    page.act(
        "earths",
        "? both earths side by side",
        lambda: _earth(step),
        "What exporting the house's earth and what an electrode needs here, and who decides.",
    )


def buying_page(step: FormStep, place: Place) -> Page:
    """Return the page."""
    buying = step.session.record.buying
    page = Page("Feed › before buying", place)
    page.heading("Nothing changes by looking")
    feed_option_rows(step, page)
    page.act(
        "room",
        "? how much room is left",
        lambda: _room(step),
        "How many more amperes and metres the design takes, and what stops it. k tries a load.",
    )
    earth_row(step, page)
    page.act(
        "buy",
        "? what to buy",
        lambda: _buy(step),
        "Metres of cable, devices, glands, boxes. w writes it for a spreadsheet or as a page.",
    )
    page.act(
        "compare",
        "? compare with another record",
        lambda: _compare(step),
        "Another design side by side; Enter takes it over. Or mark options with space, then c.",
    )
    page.heading("What you settle")
    page.fields(fields_of(buying, "/buying", BUYING_FIELDS))
    page.act("buying/up", "‹ back to Feed", step.action_up, "Esc does the same.")
    return page


def _room(step: FormStep) -> None:
    from tui.dialogs.room_table import RoomTable

    step.app.push_screen(RoomTable(step.session.record))


def _earth(step: FormStep) -> None:
    from records.options.earth import earth_choice
    from tui.dialogs.earth_table import EarthTable

    step.app.push_screen(EarthTable(earth_choice(step.session.record)))


def _buy(step: FormStep) -> None:
    from records.options.buy import buy_list
    from tui.dialogs.ask import Ask
    from tui.dialogs.buy_table import BuyTable

    record = step.session.record
    bought = buy_list(record)
    beside = step.session.file.path.absolute()

    def where(text: str) -> Path:
        given = Path(text).expanduser()
        return given if given.is_absolute() else beside.parent / given

    def wrong(text: str) -> str:
        from records.entering.buy_file import as_file
        from records.store.showing import file_name

        if not text:
            return "Type a name, such as to-buy.csv."
        out = where(text)
        if out.exists():
            return f"{file_name(out)} is there already: type another name."
        try:
            as_file(out, record, bought)
        except FarboardError as error:
            return str(error)
        return ""

    def write(text: str | None) -> None:
        from records.disk import write_whole
        from records.entering.buy_file import as_file
        from records.text import printable

        if text is None:
            return
        out = where(text)
        try:
            write_whole(out, as_file(out, record, bought), new=True)
        except (FarboardError, OSError, ValueError) as error:
            step.tell(f"The list was not written: {error}", "bad")
            return
        step.tell(f"Written: {printable(str(out))}.", "good")

    def asked(answer: str | None) -> None:
        if answer is not None:
            start = f"{beside.stem}-to-buy.csv"
            title = "Write the list to: .csv for a spreadsheet, .html for a page"
            step.app.push_screen(Ask(title, wrong, start=start), write)

    step.app.push_screen(BuyTable(bought), asked)


def _compare(step: FormStep) -> None:
    from records.store.record_in import record_in
    from records.text import printable
    from tui.dialogs.ask import Ask
    from tui.steps.comparing import show_designs

    def path(text: str) -> Path:
        given = Path(text).expanduser()
        return given if given.is_absolute() else step.session.file.path.absolute().parent / given

    def wrong(text: str) -> str:
        if not text:
            return "Type the name of a record file, or of exported JSON."
        try:
            record_in(path(text))
        except FarboardError as error:
            return str(error)
        return ""

    def show(text: str | None) -> None:
        if text is None:
            return
        try:
            other = record_in(path(text)).record
        except FarboardError as error:
            step.tell(str(error), "bad")
            return
        show_designs(step, [(printable(path(text).name), other, None)])

    step.app.push_screen(Ask("Compare with which record?", wrong), show)
