"""What a change of a design does: each check that stands otherwise, before and after."""

from __future__ import annotations

from dataclasses import dataclass

from records.expected.results import Worked
from records.judgement.remedy.smallest_change import worse
from records.judgement.review_types import Judged
from records.model.record import Record
from records.options.edge import checks


@dataclass(frozen=True, slots=True)
class CheckChange:
    """One check of the design, before and after."""

    title: str
    before: Judged | None
    """None: there was no such check."""
    after: Judged | None
    """None: there is none any more."""

    @property
    def is_worse(self) -> bool:
        """Whether it fails again or by more, or isn't shown now."""
        return self.after is not None and worse(self.before, self.after)

    def __str__(self) -> str:
        sign = "worse: " if self.is_worse else ""
        return f"{sign}{self.title}: {stands(self.before)} → {stands(self.after)}"


def changed_checks(before: Record, after: Record) -> tuple[CheckChange, ...]:
    """Return the design checks that stand otherwise in another design, those that are worse first.

    Args:
        before: The job as it is.
        after: The same with a change in it.
    """
    then, now = checks(before), checks(after)
    found = []
    for key in dict.fromkeys((*now, *then)):
        old, new = then.get(key), now.get(key)
        if stands(old) != stands(new):
            line = new or old
            assert line is not None
            found.append(CheckChange(line.title, old, new))
    return tuple(sorted(found, key=lambda each: not each.is_worse))


def stands(line: Judged | None) -> str:
    """Return how a check stands: its mark, its figure and its limit; “none” if there is none."""
    if line is None:
        return "none"
    figure = f" {line.expected}" if isinstance(line.expected, Worked) else ""
    limit = f" ({line.limit})" if line.limit is not None and figure else ""
    return f"{line.verdict.mark}{figure}{limit}"
