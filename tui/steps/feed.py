"""Step 3: the distribution circuit from the house to the outbuilding."""

from __future__ import annotations

from dataclasses import replace

from records import terms
from records.entering.asked import armour_asked
from records.entering.asked_wiring import asks_together, feed_load_asked
from records.entering.design_cautions import AT_THE_HOUSE, of_feed
from records.entering.line_field import feed_ops, scope_field, trial_of
from records.entering.model_fields import fields_of
from records.model.reading import place_of
from records.model.record import Record
from tui.steps.buying import BUYING, buying_link, buying_page
from tui.steps.form_step import FormStep
from tui.steps.one_line import into_feed, take_line
from tui.steps.options import feed_option_rows
from tui.steps.page import Page, Trail
from tui.steps.wiring import device_rows, rcd_rows, run_page, run_rows

FEED_LINE = (
    "Device and cable as on an offcut: 63 bs88-3 3c 16 swa 46m buried 600. A cable becomes a new "
    "run. Ctrl+Z takes it back."
)


def _marks(page: Page, record: Record) -> None:
    """Add a mark for each circuit: whether it can be on with the others."""
    if not record.circuits:
        page.note("Enter the circuits first (Circuits); then mark here what runs together.")
        return
    page.note("Mark each circuit that can be on at the same time as the others.")
    for at, circuit in enumerate(record.circuits):
        name = f"{circuit.id} {circuit.name}".strip()
        (mark,) = fields_of(circuit, f"/circuits/{at}", ("together",))
        page.fields((replace(mark, label=name),))


class FeedStep(FormStep):
    """Says how the sub-board is fed."""

    step = terms.Step.FEED
    STEP_TITLE = "Feed"
    HELP = (
        "The distribution circuit: its protective device at the house board, and its runs of "
        "cable one after another.\n\n"
        "A run is one length of one cable in one set of surroundings. Where the cable or its "
        "surroundings change, begin a new run. For example: flat cable through the loft, armoured "
        "cable in the ground, flat cable again to the sub-board.\n\n"
        "The load: Ib as you calculated it, or what follows from the circuits. What runs together "
        "asks which circuits can be on at once: the honest way for a workshop.\n\n"
        "Give each run the worst surroundings it meets. What follows from it (Zdb, voltage drop, "
        "capacity, disconnection) is beside the form, or under it. F2 shows how each figure was "
        "calculated.\n\n"
        f"{AT_THE_HOUSE}"
    )

    def page(self, trail: Trail) -> Page | None:
        """Return the first page, or that of a run."""
        feed, place = self.session.record.feed, place_of(terms.Part.FEED)
        if trail == BUYING:
            return buying_page(self, place)
        if trail:
            page = run_page(self, feed, "/feed", trail, "Feed", place)
            if page is not None:
                feed_option_rows(self, page, int(trail[-1]))
            return page
        page = Page("Feed", place)
        from records.shorthand.line import Scope

        line = scope_field("/feed", FEED_LINE, Scope.FEED)
        page.line(
            line,
            lambda text: take_line(
                self, line.key, text, Scope.FEED, lambda read: into_feed(self, feed, read)
            ),
            trial_of(Scope.FEED, feed_ops),
        )
        device_rows(page, feed.device, "/feed")
        rcd_rows(page, feed.rcd, "/feed", feed.device, aged=True)
        page.heading("Load")
        page.ask(feed, "/feed", feed_load_asked(feed))
        if asks_together(feed):
            _marks(page, self.session.record)
        run_rows(self, page, feed, "/feed", trail)
        feed_option_rows(self, page)
        buying_link(self, page)
        page.ask(feed, "/feed", (*of_feed(), *armour_asked(feed)))
        return page
