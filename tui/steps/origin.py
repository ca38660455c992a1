"""Step 2: the supply and the house board that the feed starts from."""

from __future__ import annotations

from records import terms
from records.model.reading import place_of
from records.model.supply import Ground
from tui.fields import fields_of
from tui.steps.cautions import PME, TT
from tui.steps.form_step import FormStep
from tui.steps.page import Page, Trail

_TYPICAL = (
    "A typical maximum is no reading and no promise: the operator may declare otherwise. All that "
    "follows from it waits for the live tests."
)


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
        "Work at the intake, on the main (cut-out) fuse or its seals is not yours to do."
    )

    def page(self, trail: Trail) -> Page | None:
        """Return the only page."""
        origin = self.session.record.origin
        page = Page("Origin", place_of(terms.Part.ORIGIN))
        page.fields(fields_of(origin, "/origin", ("earthing",)))
        if origin.earthing is terms.Earthing.TN_C_S:
            page.note(PME, "warn")
        elif origin.earthing is terms.Earthing.TT:
            page.note(TT, "warn")
        page.fields(fields_of(origin, "/origin", ("u0",)))
        for name, ground in (
            ("ze", origin.ze_ground),
            ("fault_current", origin.fault_current_ground),
        ):
            page.fields(fields_of(origin, "/origin", (name, f"{name}_ground")))
            if ground is Ground.TYPICAL:
                page.note(_TYPICAL, "warn")
        tncs = origin.earthing is terms.Earthing.TN_C_S
        neutral = ("neutral_csa",) if tncs or origin.neutral_csa is not None else ()
        page.fields(fields_of(origin, "/origin", ("cutout", *neutral, "note")))
        return page
