"""Shows the wizard in a browser."""

from __future__ import annotations

import re
import sys
from importlib.util import find_spec
from pathlib import Path

import click

from tui.commands.lines import fitted
from tui.commands.opening import RECORD
from tui.commands.output import say
from tui.commands.trouble import Trouble

_LOCAL = "127.0.0.1"
_HOST = re.compile(r"[\w.:%-]{1,253}")


@click.command()
@click.argument("file", type=RECORD, required=False)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8765,
    show_default=True,
    help="Where the page is; 0 takes any that is free.",
)
@click.option(
    "--open-to",
    metavar="HOST",
    help="Let other devices in, on this address of yours (0.0.0.0: on all).",
)
def serve(file: Path | None, port: int, open_to: str | None) -> None:
    """Show the wizard in a browser, such as a tablet's.

    Only browsers on this machine are answered, unless --open-to lets others in. The address
    carries a token, and who has it can do in the wizard all that you can.

    The page that was opened last has the wizard; one that had it before is closed, drafts kept.
    """
    _check_installed()
    if file is not None:
        from records.store.heading import check_heading, check_is_file

        check_is_file(file)
        check_heading(file, shown=file, unfinished=True)
    import asyncio
    import secrets

    from records.store.showing import file_name, shown
    from tui.serving.access import is_loopback
    from tui.serving.server import WizardServer

    host = _LOCAL if open_to is None else open_to.strip()
    if not _HOST.fullmatch(host):
        raise Trouble(f"“{shown(host)}” is no host: give a name or an address, such as 0.0.0.0.")
    token = secrets.token_urlsafe(16)  # others on this machine have no business here either
    words = [sys.executable, "-m", "tui.serving.wizard"]
    title = "Farboard"
    if file is not None:
        words.append(str(file.absolute()))
        title = f"{file_name(file.name)} · Farboard"
    if not is_loopback(host):
        for line in _warning(file):
            say(fitted(line, sys.stderr), err=True)

    async def run() -> None:
        server = WizardServer(
            words, host=host, port=port, title=title, token=token, local=is_loopback(host)
        )
        await server.run(lambda at: say(_standing(host, at, token)))

    asyncio.run(run())
    say("The page is closed. All that was accepted is on disk.")


def _check_installed() -> None:
    if find_spec("textual_serve") is None:
        raise Trouble(
            "The browser page needs one more package, textual-serve. Install it with "
            "“pip install 'farboard[serve]'”; in a clone: “.venv/bin/pip install -e '.[serve]'”."
        )


def _standing(host: str, port: int, token: str) -> str:
    from tui.serving.addresses import shown_host

    address = f"http://{shown_host(host)}:{port}/"
    if token:
        address += f"?token={token}"
    return f"The wizard is at {address}\nCtrl+C here ends it."


def _warning(file: Path | None) -> list[str]:
    reach = "this record and any other" if file is not None else "any record"
    return [
        "Caution: other devices on the network can reach this page now.",
        f"Who has the address with its token can change {reach} that you can, and write documents.",
        "Nothing on the way is encrypted: use it only on a network that you trust.",
    ]
