"""The words after `farboard`: help, files, typing errors, completion, pipes, no terminal."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from tests.commands.conftest import ROOT, Run
from tui.commands.program import program

COMMANDS = [
    "demo",
    "bench",
    "check",
    "explain",
    "options",
    "readings",
    "schedule",
    "draw",
    "template",
    "verify",
    "history",
    "export",
    "import",
    "schema",
    "rescue",
    "serve",
    "sources",
    "completion",
]


def test_help_names_every_command_in_the_order_of_the_work(run: Run) -> None:
    ran = run("--help")

    assert ran.returncode == 0
    listed = ran.stdout.split("Commands:")[1].splitlines()
    assert [line.split()[0] for line in listed[1 : len(COMMANDS) + 1]] == COMMANDS
    assert max(map(len, ran.stdout.splitlines())) <= 80
    assert "does not certify" in " ".join(ran.stdout.split())
    assert run("-h").stdout == ran.stdout


@pytest.mark.parametrize("name", COMMANDS)
def test_each_command_has_help_of_its_own(run: Run, name: str) -> None:
    ran = run(name, "--help")
    assert ran.returncode == 0
    first = ran.stdout.splitlines()[2].strip()
    assert first.endswith((".", ":")) or first.count(" ") > 3
    command = program.get_command(click.Context(program), name)
    assert command is not None
    for parameter in command.params:
        for option in parameter.opts:
            assert option in ran.stdout or parameter.param_type_name == "argument"


def test_help_loads_nothing_heavy() -> None:
    code = (
        "import sys; sys.argv = ['farboard', '--help']\n"
        "from tui.commands import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "heavy = 'textual', 'rich', 'pydantic', 'pint', 'docxtpl', 'jsonpatch', 'sqlite3'\n"
        "print('LOADED', [m for m in heavy if m in sys.modules])"
    )
    out = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT
    )
    assert out.stdout.splitlines()[-1] == "LOADED []"


def test_version_is_that_of_the_package(run: Run) -> None:
    ran = run("--version")
    assert ran.returncode == 0
    assert ran.stdout == f"farboard {version('farboard')}\n"


@pytest.mark.parametrize("words", [[], ["demo"], ["shed.farboard"], ["shed.farboard", "--look"]])
def test_without_a_terminal_the_wizard_says_so_and_does_not_hang(
    run_apart: Run, shed: Path, words: list[str]
) -> None:
    ran = run_apart(*words)
    assert (ran.returncode, ran.stdout) == (2, "")
    assert "needs a terminal" in ran.stderr
    assert list(shed.parent.iterdir()) == [shed]


def test_a_word_that_is_neither_is_taken_for_a_slip(run: Run) -> None:
    ran = run("chekc")
    assert ran.returncode == 2
    assert "Did you mean “check”?" in ran.stderr
    assert "See farboard --help" in run("xyzzy").stderr
    assert "There is no file" in run("xyzzy.farboard").stderr
    assert "No such option" in run("--nothing").stderr


def test_a_file_named_like_a_command_opens_by_its_path(run: Run, tmp_path: Path) -> None:
    (tmp_path / "check").write_text("no record")
    assert "is not a Farboard record" in run("./check").stderr


def test_a_name_with_escape_codes_does_not_reach_the_terminal(run: Run, tmp_path: Path) -> None:
    name = "\x1b[31mred.farboard"
    (tmp_path / name).write_text("no record")
    for words in ([name], ["check", name], ["check", "\x1b[32m"], ["\x1b[33m"]):
        ran = run(*words)
        assert ran.returncode == 2
        assert "\x1b" not in ran.stderr


@pytest.mark.slow
def test_a_pipe_that_closes_early_is_no_trouble(run: Run, shed: Path) -> None:
    for words in (["sources"], ["export", str(shed)], ["check", str(shed), "--all"]):
        with subprocess.Popen(
            [sys.executable, "-m", "tui", *words],
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        ) as child:
            assert child.stdout is not None
            assert child.stderr is not None
            child.stdout.read(1)
            child.stdout.close()
            assert child.stderr.read() == b""
            child.wait(timeout=30)


@pytest.mark.slow
@pytest.mark.parametrize("encoding", ["latin-1", "cp1252", "cp437"])
def test_a_terminal_that_lacks_the_trades_signs_gets_words(
    run: Run, shed: Path, encoding: str
) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "tui", "check", str(shed)],
        cwd=ROOT,
        env={**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as child:
        out, err = child.communicate(timeout=60)
    assert err == b""
    assert child.returncode == 1
    text = out.decode(encoding)
    assert "x outside" in text
    assert "ohm" in text or "Ω" in text


def completed(shell_words: str, at: int) -> list[str]:
    """Return what bash would be offered for a half-typed line."""
    out = subprocess.run(
        [sys.executable, "-m", "tui"],
        check=True,
        cwd=ROOT,
        env={
            **os.environ,
            "_FARBOARD_COMPLETE": "bash_complete",
            "COMP_WORDS": shell_words,
            "COMP_CWORD": str(at),
        },
        capture_output=True,
        text=True,
    )
    return out.stdout.split()


@pytest.mark.slow
def test_the_shell_completes_commands_files_and_options() -> None:
    assert "plain,check" in completed("farboard ch", 1)
    assert "plain,demo" not in completed("farboard ch", 1)
    assert "file,ch" in completed("farboard ch", 1)
    assert {f"plain,{name}" for name in COMMANDS} <= set(completed("farboard ", 1))
    assert completed("farboard check sh", 2) == ["file,sh"]
    assert "plain,--json" in completed("farboard check --j", 2)
    assert completed("farboard schedule x -o y", 4) == ["file,y"]
    assert "plain,--look" in completed("farboard shed.farboard --l", 2)
    assert completed("farboard completion b", 2) == ["plain,bash"]


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_script_for_each_shell_is_printed(run: Run, shell: str) -> None:
    ran = run("completion", shell)
    assert ran.returncode == 0
    assert "_FARBOARD_COMPLETE" in ran.stdout
    assert f"farboard completion {shell}" in run("completion").stdout


def test_bash_takes_the_script_and_completes_with_it(tmp_path: Path, run: Run) -> None:
    (tmp_path / "farboard").write_text(
        f'#!/bin/sh\nPYTHONPATH={ROOT} exec {sys.executable} -m tui "$@"\n'
    )
    (tmp_path / "farboard").chmod(0o755)
    script = (
        'eval "$(farboard completion bash)"\n'
        "COMP_WORDS=(farboard schedu); COMP_CWORD=1\n"
        "_farboard_completion farboard schedu farboard 2>/dev/null\n"
        'echo "${COMPREPLY[@]}"\n'
    )
    out = subprocess.run(
        ["bash", "-c", script],
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PATH": f"{tmp_path}:{os.environ['PATH']}"},
        capture_output=True,
        text=True,
    )
    assert out.stdout.split() == ["schedule"]


@pytest.mark.slow
def test_colour_is_left_out_where_the_person_wants_none(
    shed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """no-color.org: a NO_COLOR that is set and not empty asks for no colour."""
    words = ["check", str(shed)]
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert "\x1b[" in CliRunner().invoke(program, words, color=True).stdout
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b" not in CliRunner().invoke(program, words, color=True).stdout
