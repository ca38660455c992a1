"""What is settled before anything is bought: a page of the feed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui.fields import fields_of
from tui.steps.options import feed_option_rows
from tui.steps.page import Page, Trail

if TYPE_CHECKING:
    from records.model.reading import Place
    from tui.steps.form_step import FormStep

BUYING: Trail = ("before", "buying")
"""Where the page stands in its step."""


def buying_link(step: FormStep, page: Page) -> None:
    """Add the row that opens the page."""
    page.link("buying", "Before buying", "room, allowance, why this cable", step.opening(BUYING))


def buying_page(step: FormStep, place: Place) -> Page:
    """Return the page."""
    buying = step.session.record.buying
    page = Page("Feed › before buying", place)
    feed_option_rows(step, page)
    page.heading("What you settle")
    page.fields(fields_of(buying, "/buying", ("room", "allowance", "print_why", "why")))
    page.act("buying/up", "‹ back to Feed", step.action_up, "Esc does the same.")
    return page
