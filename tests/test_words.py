"""Words that a person could stumble over don't come back: on screen, in messages, in the README."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent

NOT_OUR_TERMS = {
    r"loop at the (far point|far end|sub-board)": "Zs at the furthest point; Zdb",
    r"\bfar (point|end)\b": "furthest point",
    r"earth fault loop outside": "Ze: external earth fault loop impedance",
    r"ring crossed": "cross-connected",
    r"insulation L and earth": "insulation resistance",
    r"fault current most": "prospective fault current",
    r"ran out of (its|a low) range": "over range",
    r"operates as meant": "functional test",
    r"put back and try": "reinstate and functional tests",
    r"supplier's fuse": "main (cut-out) fuse",
    r"(is|isn't|not|either|be) carried over": "exported through the feed; earth not exported",
    r"metal (in contact with|that comes out of the) ground": "extraneous-conductive-parts",
    r"what is built(?! on)": "description of the work",
    r"orders the work": "client",
    r"warmest surroundings": "ambient temperature",
    r"^circuits together|[0-9…] circuits together": "number of grouped circuits",
    r"hidden under 50": "concealed less than 50 mm deep",
    r"residual current part": "RCD part of the RCBO",
    r"that the design takes": "design Ze",
    r"halve the circuit": "split the circuit, test each half",
    r"loads off and repeat|^loads off\b": "disconnect the loads and retest",
    r"still to be taken": "still to test",
    r"leave untaken|\buntaken\b": "cancel",
    r"met a fault of its own": "crash",
    r"the talk ends": "the session ended",
    r"edition worked to": "BS 7671 edition",
}
"""What is not said, and what is said instead."""

PLAIN_ENGLISH = {
    r"\b(take|takes|taken) (it |them )?out\b": "remove",
    r"found (right|wrong)": "correct, not correct",
    r"\berrs?\b": "on the safe side (worst case)",
    r"\banew\b": "again",
    r"\bnought\b": "zero",
    r"\bmend(s|ed|ing)?\b": "correct, put right",
    r"\bspoilt\b": "damaged",
    r"(?<!you )(?<!whoever )\b(stands?|stood)\b(?! (in|for|beside|to|back|clear|out)\b)": "is",
    r"\blets? by\b": "lets through",
    r"\bof (its|their) own\b": "its own",
    r"\bas meant\b": "as it should",
    r"\bas read\b": "as measured",
    r"\bone (walks|stands)\b": "by where you stand",
    r"\b(is|are) to be\b": "say who does it",
    r"\bworked out\b|\bworks? out\b": "calculated",
    r"\bturn about\b": "alternately",
    r"\b(is|not|looks|written|drawn|it) whole\b|\bwhole or not\b": "complete",
    r"\bseldom\b": "rarely",
    r"\b(by|of) (itself|themselves)\b": "alone",
    r"\bnothing: ": "say what there is",
    r"\ba finger\b": "by hand",
    r"\b(wherein|whereof|thereof|hence|lest|whilst|amid|ere|oft|upon|beneath|unto)\b": "plain "
    "words",
    r"nothing follows from": "No expected value",
}
"""What two electricians would not say to each other, and what they would."""

ALLOWED = {
    "records/older_words.py": "words that stood in record files of forms 1 and 2",
    "records/glossary.py": "says the standard's word beside ours",
}
"""Files that may say what the others may not, and why."""

CODES = {
    "anew": "key of `check --json` and of a summary",
    "mends": "key of `check --json`",
    "worked out": "basis in the data files, and of a figure that isn't taken",
    "below-nought": "name of a rule",
    "leads not at nought": "name of a rule, in the keys of findings",
    "supplier's fuse": "name of a design check, in the keys of findings",
    "taken before the board was right": "name of a pattern, in the keys of findings",
    "worked out backwards": "name of a pattern, in the keys of findings",
}
"""Whole strings that programs read and nobody is shown."""


@cache
def strings(path: Path) -> list[tuple[int, str, bool]]:
    """Return line, text and whether a person may see it, for the strings of a module."""
    return list(_strings(path))


def _strings(path: Path) -> Iterator[tuple[int, str, bool]]:
    """Yield them one by one.

    The docstring of a field of the model is its hint on the screen; others are for programmers.
    """
    tree = ast.parse(path.read_text("utf-8"))
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef))
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    bare = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    hints = "records/model/" in path.as_posix()
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            parts = (part.value if isinstance(part, ast.Constant) else "…" for part in node.values)
            yield node.lineno, " ".join("".join(map(str, parts)).split()), True
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            shown = id(node) not in bare or (hints and id(node) not in docs)
            yield node.lineno, " ".join(node.value.split()), shown


def sources() -> list[Path]:
    found = [*(ROOT / "records").rglob("*.py"), *(ROOT / "tui").rglob("*.py")]
    return sorted(path for path in found if path.relative_to(ROOT).as_posix() not in ALLOWED)


@cache
def any_of(patterns: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{each})" for each in patterns), re.IGNORECASE)


def said(text: str, words: dict[str, str]) -> Iterator[str]:
    if not any_of(tuple(words)).search(text):
        return
    for pattern, instead in words.items():
        for found in re.finditer(pattern, text, re.IGNORECASE):
            yield f"“{found[0]}”: say “{instead}”, in “{text[:160]}”"


def test_every_text_a_person_reads_is_present_day_trade_english():
    wrong = [
        f"{path.relative_to(ROOT)}:{line}: {one}"
        for path in sources()
        for line, text, shown in strings(path)
        if shown and text not in CODES
        for one in said(text, NOT_OUR_TERMS | PLAIN_ENGLISH)
    ]

    assert wrong == [], "\n".join(["", *wrong])


def test_docstrings_use_the_same_terms():
    wrong = [
        f"{path.relative_to(ROOT)}:{line}: {one}"
        for path in sources()
        for line, text, shown in strings(path)
        if not shown
        for one in said(text, NOT_OUR_TERMS)
    ]

    assert wrong == [], "\n".join(["", *wrong])


MOST_WORDS = 20
"""In a sentence: `one thing a sentence`, so that nobody has to read it twice."""

LONG = {
    "tui/commands/ending.py": "a list of exit codes",
    "records/entering/buy_file.py": "rules for the look of a page",
    "records/model/kinds.py": "a pattern, not words",
    "records/model/record.py": "what the form of the file is, for programs",
    "records/model/slots.py": "what a tuple is made of, for programmers",
    "records/model/measurement.py": "what a field is for, for programmers",
    "records/document/photo_parts.py": "what a word processor reads",
    "records/document/shapes.py": "what a word processor reads",
    "records/document/template/look.py": "what a word processor reads",
    "records/judgement/insulation/test_method.py": "a pattern, not words",
    "records/shorthand/vocabulary.py": "words that are typed, a list",
}
"""Files with something longer, and why."""


def sentences(text: str) -> Iterator[str]:
    """Yield the sentences of a text; an abbreviation or a figure with a point ends none."""
    yield from re.split(r"(?<=[.!?])\s+", text)


def words_in(sentence: str) -> int:
    return len(re.findall(r"[^\W_][\w%+'’]*(?:[-/.,][^\W_]\w*)*", sentence))


def test_no_sentence_on_screen_or_paper_is_too_long_to_be_read_once():
    long = [
        f"{path.relative_to(ROOT)}:{line}: {words_in(each)} words: {each}"
        for path in sources()
        if path.relative_to(ROOT).as_posix() not in LONG
        for line, text, shown in strings(path)
        if shown and " " in text
        for each in sentences(text)
        if words_in(each) > MOST_WORDS
    ]

    assert long == [], "\n".join(["", *long])


def test_no_sentence_of_the_readme_is_too_long_to_be_read_once():
    text = (ROOT / "README.md").read_text("utf-8")
    text = re.sub(r"(?s)```.*?```", "", text)
    text = re.sub(r"(?m)^    .*$|^\|.*$|^!\[.*$|^#.*$", "", text)
    blocks = re.split(r"\n\s*\n|\n- ", text)
    long = [
        f"{words_in(each)} words: {each}"
        for block in blocks
        for each in sentences(re.sub("`[^`]*`", "code", " ".join(block.split())))
        if words_in(each) > MOST_WORDS
    ]

    assert long == [], "\n".join(["", *long])


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md"])
def test_the_pages_use_the_same_words(name):
    text = " ".join((ROOT / name).read_text("utf-8").split())
    text = re.sub("`[^`]*`", "`code`", text)  # names of files, commands and codes

    wrong = list(said(text, NOT_OUR_TERMS | PLAIN_ENGLISH))

    assert wrong == [], "\n".join(["", *wrong])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Loop at the far point", NOT_OUR_TERMS),
        ("the meter ran out of its range", NOT_OUR_TERMS),
        ("It is to be entered anew.", PLAIN_ENGLISH),
        ("the file is whole", PLAIN_ENGLISH),
    ],
)
def test_the_lists_catch_what_was_said_before(text, words):
    assert list(said(text, words))


def test_a_good_sentence_is_let_through():
    text = "Split the circuit and test each half. A person competent in live testing stands beside."

    assert not list(said(text, NOT_OUR_TERMS | PLAIN_ENGLISH))
