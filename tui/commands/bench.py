"""Opens a record where its readings are taken: the bench of the wizard, or line by line."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import click

from tui.commands.lines import fitted
from tui.commands.opening import RECORD
from tui.commands.output import say
from tui.commands.stages import STAGES, stage_of
from tui.commands.terminal import need_terminal
from tui.commands.wizard import check_openable, run

if TYPE_CHECKING:
    from records.session import Session
    from records.terms import Step


@click.command()
@click.argument("file", type=RECORD)
@click.option("--plain", is_flag=True, help="Line by line: for screen readers and pipes.")
@click.option(
    "--stage",
    type=click.Choice(STAGES),
    help="Which readings; without it: the stage that was begun last.",
)
@click.option("--by", default="", help="Who takes them: a name, a part of it, or an id.")
@click.option(
    "--ask-again",
    is_flag=True,
    help="Ask again after a refused answer even if answers are piped.",
)
@click.pass_context
def bench(
    ctx: click.Context, file: Path, plain: bool, stage: str | None, by: str, ask_again: bool
) -> int:
    """Take readings: the bench of the wizard, or line by line with --plain.

    Line by line each reading is told, then asked for; ? explains what can be answered. A value is
    on disk before it is said to be kept.

    Answers can be piped in, one a line. The first one that is refused then ends the talk with exit
    code 2, so that those after it can't slide on to other readings.
    """
    if plain:
        _line_by_line(ctx, file, stage, by, ask_again)
        return 0
    if ask_again:
        raise click.UsageError("--ask-again is for answers line by line: say --plain as well.")
    check_openable(file)
    need_terminal()
    return run(file, begin=lambda session: _seated(session, stage, by))


def _seated(session: Session, stage: str | None, by: str) -> Step:
    """Sit somebody down at the bench of a stage; return the step that has it."""
    from records.taking.stage_begun import stage_begun
    from records.terms import STEP_OF_STAGE

    at = stage_of(stage) if stage else stage_begun(session.record)
    if by:  # else nothing of the bench is needed until its frame stands
        from records.taking.desk import Desk
        from records.taking.person_named import person_named

        person = person_named(session.record, by)
        if person is not None:
            Desk(session, at).settings.person = person
    return STEP_OF_STAGE[at]


def _line_by_line(
    ctx: click.Context, file: Path, stage: str | None, by: str, ask_again: bool
) -> None:
    from records.session import Session
    from records.store.file import RecordFile
    from records.taking.person_named import person_named
    from records.taking.stage_begun import stage_begun
    from tui.plain.bench import LineBench
    from tui.plain.talk import Talk

    source = _answers()
    typed = source.isatty()
    with RecordFile.open(file) as opened, _cleanly_left(ctx):
        person = person_named(opened.record, by)
        name = next((each.name for each in opened.record.job.people if each.id == person), "")
        at = stage_of(stage) if stage else stage_begun(opened.record)
        session = Session(opened, name)
        talk = Talk(source, lambda text: say(fitted(text, sys.stdout), nl=False), echo=not typed)
        talk.say(opened.remark)
        made = LineBench(session, at, talk, asks_again=typed or ask_again, confirms=typed)
        if person is not None:
            made.taken_by(person)
        if not made.run():
            ctx.exit(2)


def _answers() -> TextIO:
    """Return where answers come from; bytes that are no text are refused later, in a sentence."""
    from tui.commands.trouble import Trouble

    if sys.stdin is None or sys.stdin.closed:
        raise Trouble("There is nowhere to take answers from: standard input is closed.")
    reconfigure = getattr(sys.stdin, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors="surrogateescape")
    return sys.stdin


@contextmanager
def _cleanly_left(ctx: click.Context) -> Iterator[None]:
    try:
        yield
    except KeyboardInterrupt:
        say("\nLeft. All that was said to be kept is on disk.")
        ctx.exit(130)
