"""Step 2: the supply and the house board that the feed starts from."""

from __future__ import annotations

from records import terms
from records.entering.asked import origin_asked
from records.entering.design_cautions import INTAKE
from records.model.reading import place_of
from tui.steps.form_step import FormStep
from tui.steps.page import Page, Trail


class OriginStep(FormStep):
    """Says what the supply gives."""

    step = terms.Step.ORIGIN
    STEP_TITLE = "Origin"
    HELP = (
        "The supply as it is at the house board: its earthing, Ze and the highest prospective "
        "fault current. Ze is the external earth fault loop impedance.\n\n"
        "The earthing is not guessed from what the intake looks like: ask the network operator "
        "or the certifier. Ze and the fault current may be figures that the operator declares, "
        "or typical maxima to begin with. Each says which it is. Both are measured "
        "in the live tests.\n\n"
        f"{INTAKE}"
    )

    def page(self, trail: Trail) -> Page | None:
        """Return the only page."""
        origin = self.session.record.origin
        page = Page("Origin", place_of(terms.Part.ORIGIN))
        page.ask(origin, "/origin", origin_asked(origin))
        return page
