"""Step 4: the sub-board and the earthing at the outbuilding."""

from __future__ import annotations

from records import terms
from records.entering.asked import BOND, earth_asked
from records.entering.design_cautions import of_bonds, of_earth
from records.entering.list_entries import new_bond
from records.entering.model_fields import fields_of
from records.entering.summaries import bond_summary
from records.model.reading import place_of
from records.model.record import Record
from records.store.edits import append
from tui.steps.buying import earth_row
from tui.steps.form_step import FormStep
from tui.steps.noticed import noticed_rows
from tui.steps.page import Page, Trail
from tui.steps.wiring import rcd_rows


class BoardStep(FormStep):
    """Says what the sub-board has and where its earth comes from."""

    step = terms.Step.BOARD
    STEP_TITLE = "Board"
    HELP = (
        "The sub-board: its main switch, an RCD over all of it if there is one, surge protection. "
        "Above all: where the earth of the outbuilding comes from.\n\n"
        "The earth is either exported through the feed, or the outbuilding has its own electrode. "
        "A mixture of both is a fault that kills. The designer and the certifier decide.\n\n"
        "Metal that can bring in the potential of the ground (pipes, a frame) is bonded. List "
        "each bonding conductor, so that its continuity is tested."
    )

    def page(self, trail: Trail) -> Page | None:
        """Return the first page, or that of a bond."""
        record = self.session.record
        return self._bond(record, trail[1]) if trail else self._first(record)

    def _first(self, record: Record) -> Page:
        board = record.board
        page = Page("Board", place_of(terms.Part.BOARD))
        page.fields(fields_of(board, "/board", ("place", "main_switch", "surge_protection")))
        rcd_rows(page, board.rcd, "/board")
        page.heading("Earthing at the outbuilding")
        page.ask(board, "/board", earth_asked(record))
        earth_row(self, page)
        page.ask(board, "/board", of_earth(record))
        page.heading("Main bonding")
        page.ask(board, "/board", of_bonds(record))
        for at, bond in enumerate(board.bonds):
            page.link(
                bond.id,
                bond.what or f"{bond.id} (what?)",
                bond_summary(bond),
                self.opening(("bond", bond.id)),
                take_out=self.taking_out(f"/board/bonds/{at}", f"Bond {bond.name}"),
            )
        page.act("+bond", "+ add a bonding conductor", self._add)
        noticed_rows(self, page, record, None)
        return page

    def _bond(self, record: Record, id: str) -> Page | None:
        bonds = record.board.bonds
        at = next((at for at, each in enumerate(bonds) if each.id == id), None)
        if at is None:
            return None
        here = f"/board/bonds/{at}"
        page = Page(f"Board › bond {id}", place_of(terms.Part.BOARD, None, id))
        page.fields(fields_of(bonds[at], here, BOND))
        page.removals[""] = self.taking_out(here, f"Bond {id}")
        page.act("up", "‹ back to Board", self.action_up, "Esc does the same.")
        page.act("out", "remove this bond", page.removals[""], "F8")
        return page

    def _add(self) -> None:
        bond = new_bond(self.session.record)
        if self.alter(append("/board/bonds", bond), f"Bond {bond.id} is added: say what it is to."):
            self.open(("bond", bond.id))
