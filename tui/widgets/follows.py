"""What follows from the design: a panel beside the form, or two lines under it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content

from records.terms import Verdict
from tui.look import verdict_style
from tui.widgets.words import Words

if TYPE_CHECKING:
    from records.entering.following import Following

_GROUPS = (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NEAR, Verdict.WITHIN)
_WORST = _GROUPS[:3]
_NEEDS = 6
_STRIP = 3
"""Lines that the strip may take."""


class Follows(VerticalScroll, can_focus=False):
    """The panel, for wide windows."""

    def compose(self) -> ComposeResult:
        """Compose one text."""
        yield Words()

    def show(self, figures: Sequence[Following], needs: Sequence[str], found: str = "") -> None:
        """Show figures under their verdicts, the worst first, then what the step still lacks.

        Args:
            figures: What follows for the page.
            needs: What the step lacks, a sentence each.
            found: The findings of the step, for a page without figures.
        """
        lines = [Content.styled("What follows", "bold $primary")]
        if found:
            lines.append(Content.styled(f"! {found}", "bold $warning"))
        elif not figures:
            lines.append(Content.styled("Nothing is calculated for this page.", "$quiet"))
        wide = max((len(each.name) for each in figures if each.worked), default=0)
        for verdict in _GROUPS:
            group = [each for each in figures if each.verdict is verdict and each.worked]
            if group:
                word = f"{verdict.mark} {verdict.value}"
                lines.append(Content.styled(word, verdict_style(verdict)))
                lines += _rows(group, wide, why=verdict in _WORST)
        rest = [each for each in figures if each.worked and each.verdict not in _GROUPS]
        if rest:
            lines.append(Content.styled("– with no limit", "$quiet"))
            lines += _rows(rest, wide, why=False)
        if any(each.unsure for each in figures):
            from records.judgement.trust import MEANING

            lines.append(Content.styled(MEANING, "$quiet"))
        lines += _without(figures)
        if needs:
            lines += [Content(""), Content.styled("Still wanted in this step", "bold $primary")]
            lines += [Content(f"· {need}") for need in needs[:_NEEDS]]
            if len(needs) > _NEEDS:
                lines.append(Content.styled(f"  and {len(needs) - _NEEDS} more", "$quiet"))
        self.query_one(Words).update(Content("\n").join(lines))


class Strip(Words):
    """The two lines, for narrow windows: the figures in short, and the worst of them."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._figures: Sequence[Following] = ()
        self._needs: Sequence[str] = ()
        self._found = ""

    def show(self, figures: Sequence[Following], needs: Sequence[str], found: str = "") -> None:
        """Show what fits; the arguments are those of the panel."""
        self._figures, self._needs, self._found = figures, needs, found
        self._draw()

    def on_resize(self) -> None:
        """Show what fits now."""
        self._draw()

    def _draw(self) -> None:
        width = max(self.content_region.width, 20)
        lines = [Content(""), _second(self._figures, self._needs, self._found)]
        told = [each for each in self._figures if each.short and each.worked]
        for each in sorted(told, key=lambda each: each.verdict not in _WORST):
            more = _short(each) if not lines[0] else Content.assemble(lines[0], " · ", _short(each))
            if more.cell_length > width:
                break
            lines[0] = more
        first, *rest = [line for line in (lines[0], *lines[1].wrap(width)) if line]
        self.update(Content("\n").join([first, *_fitted(rest, _STRIP - 1, width)]))


def _fitted(lines: Sequence[Content], most: int, width: int) -> Sequence[Content]:
    """Return at most so many lines, the last one with a sign if there are more."""
    if len(lines) <= most:
        return lines
    last = lines[most - 1].wrap(width - 2)[0]
    return [*lines[: most - 1], Content.assemble(last.rstrip(), " …")]


def _rows(figures: Iterable[Following], wide: int, *, why: bool) -> Iterable[Content]:
    for each in figures:
        beside = f" {each.beside}" if each.beside else ""
        beside += f" {each.unsure}" if each.unsure else ""
        yield Content.assemble((f"  {each.name:<{wide}} ", "$quiet"), (each.brief, "bold"), beside)
        if why and each.why:
            yield Content(f"    {each.why}")


def _without(figures: Iterable[Following]) -> Iterable[Content]:
    """Yield what could not be worked out, figures with the same reason together."""
    reasons: dict[str, list[str]] = {}
    for each in figures:
        if not each.worked:
            reasons.setdefault(str(each.result), []).append(each.name)
    for reason, names in reasons.items():
        said = reason.removeprefix("not calculated: ")
        yield Content.assemble(("· not calculated: ", "$quiet"), f"{', '.join(names)}: {said}")


def _short(each: Following) -> Content:
    mark = f"{each.verdict.mark} " if each.verdict in _GROUPS else ""
    tone = verdict_style(each.verdict) if each.verdict is not None else ""
    beside = f" {each.beside}" if each.beside else ""
    beside += each.unsure
    return Content.assemble((mark, tone), f"{each.short} {each.brief}{beside}")


def _second(figures: Sequence[Following], needs: Sequence[str], found: str) -> Content:
    if found:
        return Content.styled(f"! {found}", "bold $warning")
    for verdict in _WORST:
        for each in figures:
            if each.verdict is verdict:
                figure = "" if each.brief in each.why else f" {each.brief}"
                text = f"{verdict.mark} {verdict.value}: {each.name}{figure}. {each.why}"
                return Content.styled(text, verdict_style(verdict))
    if needs:
        more = f" (and {len(needs) - 1} more)" if len(needs) > 1 else ""
        return Content.styled(f"Still wanted: {needs[0]}{more}", "$quiet")
    return Content.styled("✓ Nothing is missing in this step.", "$success")
