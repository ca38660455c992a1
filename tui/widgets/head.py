"""The top line: which job, what this is and is not, and whether the disk has everything."""

from __future__ import annotations

from textual.content import Content
from textual.reactive import reactive

from records.text import printable
from tui.widgets.still import Still

NOTICE = "installer's test record · not a certificate"


class Head(Still):
    """One line over every screen."""

    job: reactive[str] = reactive("")
    """What the job is called."""
    state: reactive[str] = reactive("")
    """A word that must not be missed: read only, not on disk."""

    def render(self) -> Content:
        """Return the line, the job's name cut to what the width leaves."""
        width = max(self.size.width, 1)
        brand = (
            Content.styled(" farboard ", "bold $ink on $primary") if width >= 64 else Content("")
        )
        state = (
            Content.styled(f" {self.state} ", "bold $ink on $error") if self.state else Content("")
        )
        notice = Content.styled(f"{NOTICE} ", "bold")
        room = width - brand.cell_length - state.cell_length - notice.cell_length - 3
        job = (
            Content(printable(self.job)).truncate(room, ellipsis=True) if room > 3 else Content("")
        )
        gap = width - sum(each.cell_length for each in (brand, state, notice, job)) - 1
        return Content.assemble(brand, " ", job, " " * max(gap, 1), state, notice)
