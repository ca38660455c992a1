"""`serve`: the wizard behind a page, for whom it is meant, and nothing left running after it."""

from __future__ import annotations

import asyncio
import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from types import SimpleNamespace

import pytest
from aiohttp import (
    ClientSession,
    ClientWebSocketResponse,
    CookieJar,
    WSMsgType,
)
from aiohttp.test_utils import TestClient, TestServer

from records.store.file import RecordFile
from tests.commands.conftest import ROOT, Run
from tests.taking.job import small_job
from tui.local_state import Kept
from tui.serving.server import WizardServer


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "a job; with [signs] & more.farboard"
    RecordFile.create(path, small_job(), by="Wren Oakes").close()
    return path


@asynccontextmanager
async def page_server(token: str = "", title: str = "Farboard") -> AsyncIterator[TestClient]:
    """Answer pages in this process; no wizard is started."""
    server = WizardServer(["false"], host="127.0.0.1", port=0, title=title, token=token)
    async with TestClient(TestServer(await server._make_app())) as client:
        yield client


class Served(SimpleNamespace):
    """A server that runs as a person runs it."""

    child: asyncio.subprocess.Process
    address: str


@asynccontextmanager
async def served(folder: Path, *words: str, patience: float = 5.0) -> AsyncIterator[Served]:
    """Run `farboard serve WORDS` on a free port, as patient with a wizard that does not end."""
    code = f"from tui.serving import child; child.PATIENCE = {patience}\n"
    child = await asyncio.create_subprocess_exec(
        sys.executable,
        "-c",
        f"{code}from tui.commands import main; main()",
        "serve",
        *words,
        "--port",
        "0",
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env={**os.environ, "PYTHONUTF8": "1", "XDG_STATE_HOME": str(folder / "kept")},
    )
    try:
        assert child.stdout is not None
        said = b""
        while b"Ctrl+C" not in said:
            line = await asyncio.wait_for(child.stdout.readline(), 60)
            assert line, said
            said += line
        found = re.search(r"http://\S+", said.decode())
        assert found is not None
        yield Served(child=child, address=found.group(), said=said.decode())
    finally:
        if child.returncode is None:
            child.kill()
        await child.wait()


@asynccontextmanager
async def opened(
    address: str, width: int = 90, path: str = "/ws"
) -> AsyncIterator[ClientWebSocketResponse]:
    """Open the page's connection as the page itself does."""
    origin = address.partition("?")[0].rstrip("/")
    async with (
        ClientSession(cookie_jar=CookieJar(unsafe=True)) as session,
        session.get(address),
        session.ws_connect(
            f"{origin}{path}?width={width}&height=30", headers={"Origin": origin}, max_msg_size=0
        ) as page,
    ):
        yield page


async def shown(page: ClientWebSocketResponse, words: str) -> str:
    """Wait until something has been drawn; return all that was."""
    drawn = ""
    while words not in drawn:
        message = await asyncio.wait_for(page.receive(), 60)
        if message.type is WSMsgType.BINARY:
            drawn += re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", message.data.decode())
        else:
            assert message.type is WSMsgType.TEXT, f"The page was closed:\n{drawn[-2000:]}"
    return drawn


async def closed(page: ClientWebSocketResponse) -> None:
    """Wait until the server has closed the page."""
    while True:
        message = await asyncio.wait_for(page.receive(), 60)
        if message.type in (WSMsgType.CLOSE, WSMsgType.CLOSING, WSMsgType.CLOSED, WSMsgType.ERROR):
            return


def wizards(job: Path) -> list[int]:
    """Return the process ids of the wizards that have a job open."""
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                words = (entry / "cmdline").read_bytes().split(b"\0")
            except OSError:
                continue
            if b"tui.serving.wizard" in words and os.fsencode(job) in words:
                found.append(int(entry.name))
    return found


async def gone(job: Path) -> None:
    """Wait until no wizard has the job open any more."""
    for _ in range(300):
        if not wizards(job):
            return
        await asyncio.sleep(0.1)
    raise AssertionError(f"Still running: {wizards(job)}")


async def test_the_page_answers_here_under_a_title_that_is_no_command_line() -> None:
    async with page_server(title="job & co · Farboard") as client:
        answer = await client.get("/")
        text = await answer.text()

        assert answer.status == 200
        assert "<title>job &amp; co · Farboard</title>" in text
        assert f'data-session-websocket-url="ws://{client.host}:{client.port}/ws"' in text
        assert "python" not in text


async def test_nothing_of_the_page_is_fetched_from_elsewhere() -> None:
    async with page_server() as client:
        answer = await client.get("/")
        named = re.findall(r'(?:href|src)="([^"]+)"', await answer.text())
        assert "default-src 'self'" in answer.headers["Content-Security-Policy"]
        style = await (await client.get("/page/page.css")).text()
        named += re.findall(r'url\("([^"]+)"\)', style)

        files = [each for each in named if each != "data:,"]
        assert len(files) >= 6
        assert all(each.startswith("/") and not each.startswith("//") for each in files)
        for each in files:
            assert (await client.get(each)).status == 200


def listening_on(pid: int) -> set[str]:
    """Return the local IPv4 addresses that a process listens on, as the kernel writes them."""
    inodes = set()
    for entry in Path(f"/proc/{pid}/fd").iterdir():
        match = re.fullmatch(r"socket:\[(\d+)\]", os.readlink(entry))
        if match:
            inodes.add(match.group(1))
    rows = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
    return {row[1].split(":")[0] for row in rows if row[3] == "0A" and row[9] in inodes}


async def test_it_listens_here_only_unless_told_otherwise(tmp_path: Path, job: Path) -> None:
    async with served(tmp_path, str(job)) as here:
        assert listening_on(here.child.pid) == {"0100007F"}
        assert "Caution" not in here.said
        # Other users of this machine reach it too.
        assert re.search(r"token=(\S{20,})", here.address)
        async with ClientSession() as session:
            for path in ("", "ws", "page/page.js"):
                bare = here.address.partition("?")[0]
                assert (await session.get(bare + path)).status == 403
    async with served(tmp_path, str(job), "--open-to", "0.0.0.0") as wide:
        assert listening_on(wide.child.pid) == {"00000000"}
        assert "Caution: other devices on the network can reach this page now." in wide.said
        assert "Nothing on the way is encrypted" in wide.said
        token = re.search(r"token=(\S{20,})", wide.address)
        assert token is not None
        port = re.search(r":(\d+)/", wide.address)
        assert port is not None
        local = f"http://127.0.0.1:{port.group(1)}/"
        async with ClientSession() as session, session.get(local) as answer:
            assert answer.status == 403
        jar = CookieJar(unsafe=True)  # keeps cookies of a bare address, as browsers do
        async with (
            ClientSession(cookie_jar=jar) as session,
            session.get(f"{local}?{token.group()}") as answer,
        ):
            assert answer.status == 200


async def test_a_finger_has_buttons_of_the_page_in_place_of_the_keys_at_the_foot(
    tmp_path: Path, job: Path
) -> None:
    async with served(tmp_path, str(job)) as server:
        for path, foot in (("/ws", True), ("/ws/touch", False)):
            async with opened(server.address, 48, path) as page:
                drawn = await shown(page, "Apple store")
                assert ("F6 Steps" in drawn) is foot
            await gone(job)


async def test_the_wizard_is_drawn_and_typed_into_and_what_is_typed_is_kept(
    tmp_path: Path, job: Path
) -> None:
    async with served(tmp_path, str(job)) as server:
        async with opened(server.address) as page:
            await shown(page, "Apple store")
            await page.send_json(["stdin", "L-9\r"])
            await shown(page, "L-9")
            await page.send_json(["stdin", "half"])
            await shown(page, "half")
        await gone(job)  # the page was left
        assert "half" in Kept(tmp_path / "kept" / "farboard").drafts(job).values()
    with RecordFile.open(job, read_only=True) as file:
        assert file.record.job.reference.endswith("L-9")


async def test_what_no_page_says_leaves_no_trace_and_ends_nothing(
    tmp_path: Path, job: Path
) -> None:
    requests = (
        b"\x16\x03\x01\x02\x00",
        b"GET / HTTP/9.9\r\n\r\n",
        b"GET /" + b"a" * 99_999 + b"\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: [::1\r\n\r\n",
        b"POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: -5\r\n\r\n",
    )
    messages = (
        "no json",
        "[]",
        "{}",
        "5",
        '["stdin"]',
        '["stdin", 5]',
        '["stdin", "\\ud800"]',
        '["resize", 5]',
        '["resize", {}]',
        '["resize", {"width": 1e99, "height": "x"}]',
        '["resize", {"width": -1, "height": 999999999}]',
        '["ping"]',
        "[" * 9000,
        '["\\u0000"]',
    )
    async with served(tmp_path, str(job)) as server:
        port = int(re.search(r":(\d+)/", server.address).group(1))  # type: ignore[union-attr]
        for each in requests:
            reader, writer = await asyncio.open_connection("127.0.0.1", port)
            writer.write(each)
            assert re.match(rb"HTTP/1.[01] 40[03] ", await asyncio.wait_for(reader.read(99), 20))
            writer.close()
        async with opened(server.address) as page:
            await shown(page, "Reference")
            for message in messages:
                await page.send_str(message)
            await page.send_bytes(b"\xff\x00")
            await page.send_str('["resize", {"width": 80, "height": 24}]')
            await page.send_str('["stdin", "still here"]')
            await shown(page, "here")
        server.child.terminate()
        assert server.child.stdout is not None
        said = (await asyncio.wait_for(server.child.stdout.read(), 60)).decode()
        assert "Traceback" not in said
        assert "Error" not in said


async def test_the_page_opened_last_has_the_wizard(tmp_path: Path, job: Path) -> None:
    async with served(tmp_path, str(job)) as server, opened(server.address) as first:
        await shown(first, "Apple store")
        async with opened(server.address, width=100) as second:
            await closed(first)
            await shown(second, "Apple store")
            assert len(wizards(job)) == 1


@pytest.mark.parametrize("way", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP, signal.SIGKILL])
async def test_no_wizard_outlives_the_server(
    tmp_path: Path, job: Path, way: signal.Signals
) -> None:
    async with served(tmp_path, str(job)) as server, opened(server.address) as page:
        await shown(page, "Apple store")
        await page.send_json(["stdin", "half"])
        await shown(page, "half")
        assert len(wizards(job)) == 1
        server.child.send_signal(way)
        await closed(page)
        assert await asyncio.wait_for(server.child.wait(), 60) == (-9 if way == 9 else 0)
        await gone(job)
    assert "half" in "".join(Kept(tmp_path / "kept" / "farboard").drafts(job).values())
    with RecordFile.open(job) as file:  # nobody holds it
        assert file.record == small_job()


async def test_a_wizard_that_does_not_listen_is_ended_all_the_same(
    tmp_path: Path, job: Path
) -> None:
    server_of_job = served(tmp_path, str(job), patience=0.5)
    async with server_of_job as server, opened(server.address) as page:
        await shown(page, "Apple store")
        os.kill(wizards(job)[0], signal.SIGSTOP)
        server.child.send_signal(signal.SIGTERM)
        await closed(page)
        assert await asyncio.wait_for(server.child.wait(), 60) == 0
        await gone(job)


def test_a_port_that_is_taken_is_said(run: Run, job: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        ran = run("serve", job, "--port", str(taken.getsockname()[1]))
    assert ran.returncode == 2
    assert "Another --port may be free." in ran.stderr


def test_an_address_that_is_not_ours_is_said(run: Run, job: Path) -> None:
    for host in ("192.0.2.7", "no such host"):
        ran = run("serve", job, "--open-to", host, "--port", "0")
        assert ran.returncode == 2
        assert f"No page can be served on {host}" in ran.stderr or f"“{host}” is no" in ran.stderr


def test_what_is_no_record_is_said_before_a_page_stands(run: Run, tmp_path: Path) -> None:
    (tmp_path / "x").write_text("no record")
    assert "is not a Farboard record" in run("serve", "x").stderr
    assert "There is no file" in run("serve", "y.farboard").stderr


def test_what_to_install_is_said_where_it_is_missing(
    run: Run, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.commands.serve.find_spec", lambda name: None)
    ran = run("serve", job)
    assert ran.returncode == 2
    assert "pip install 'farboard[serve]'" in ran.stderr
