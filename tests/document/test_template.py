"""The template that comes with Farboard, and what happens with other people's templates."""

from __future__ import annotations

import io
import zipfile
from datetime import datetime
from importlib.resources import files
from pathlib import Path

import pytest
from docx import Document
from docx.shared import Pt, RGBColor

from records.document.build_template import build
from records.document.fill_process import filled_apart
from records.document.filling import filled
from records.document.package import TEMPLATE
from records.errors import BadTemplate
from tests.document import job
from tests.document.reading_back import opened, text

pytestmark = pytest.mark.slow


def _parts(document: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def _template(*lines: str) -> bytes:
    document = Document()
    for each in lines:
        document.add_paragraph(each)
    out = io.BytesIO()
    document.save(out)
    return out.getvalue()


def _refusal(*lines: str) -> str:
    with pytest.raises(BadTemplate) as refused:
        filled(_template(*lines), job.filled_context(), job.MADE)
    message = str(refused.value)
    assert message.endswith(".")
    assert ".." not in message.replace("..place", "")
    assert "Traceback" not in message
    return message


def test_the_template_is_what_its_code_builds():
    assert _parts(TEMPLATE.read_bytes()) == _parts(build())


def test_the_template_is_package_data():
    assert files("records.document").joinpath("schedule.docx").is_file()


def test_a_word_processor_library_opens_the_template_and_it_names_nobody():
    document = opened(build())

    assert "{{ schedule.title }}" in text(document)
    assert document.core_properties.author == ""
    assert [each.orientation for each in document.sections] == [0, 0]


def test_the_template_uses_all_that_a_schedule_gives():
    """What a sheet gathers and no tag prints would be lost to the reader."""
    from docxtpl import DocxTemplate

    asked = DocxTemplate(TEMPLATE).get_undeclared_template_variables()

    # For templates of one's own; here `facts`, `worst` and `marks` say the same.
    assert asked | {"job", "people"} == set(job.filled_context())


def test_an_edited_template_prints_what_it_asks_for():
    mine = _template(
        "My own sheet for {{ job.place }}", "{% for c in circuits %}{{ c.name }}{% endfor %}"
    )
    words = text(opened(filled_apart(mine, job.filled_context(), job.MADE)))

    assert "My own sheet for Potting shed" in words
    assert "Sockets [/] [ring]" in words


def test_a_name_that_a_schedule_has_not_is_refused_with_the_nearest():
    assert _refusal("{{ job.referance }}") == (
        "The template asks for “referance” (in “{{ job.referance }}”), which a schedule doesn’t "
        "have: try “reference”."
    )
    assert "“zzz” (in “{{ zzz }}”), which a schedule doesn’t have. It has: board, " in _refusal(
        "{{ zzz }}"
    )


@pytest.mark.parametrize(
    "tag",
    ["{{ job.place", "{% for c in circuits %}{{ c.name }}", "{{ job..place }}", "{% nonsense %}"],
)
def test_a_mistake_in_a_tag_is_refused_in_a_sentence(tag: str):
    assert _refusal("All is well here.", tag).startswith("A tag of the template has a mistake")


@pytest.mark.parametrize(
    "tag",
    [
        "{{ job.__class__ }}",
        "{{ ''.__class__.__mro__[1].__subclasses__() }}",
        "{{ cycler.__init__.__globals__.os.popen('id').read() }}",
        "{{ people.append(1) }}",
        "{{ job.update({'place': 'x'}) }}",
        "{{ '{0.__class__}'.format(job) }}",
    ],
)
def test_a_template_can_reach_nothing_beyond_the_schedule(tag: str):
    message = _refusal(tag)

    assert "reach beyond what a schedule gives" in message or "doesn’t have" in message


def test_a_template_can_read_no_file():
    assert "can’t be filled" in _refusal("{% include '/etc/hostname' %}")


def test_a_tag_that_would_break_the_document_is_refused():
    assert "can’t be filled" in _refusal("{{ 1 + 'a' }}")
    stray = _refusal("{%p for c in circuits %}", "{{p c.name }}", "{%p endfor %}")
    assert "“Sockets [/] [ring]” lands outside any paragraph" in stray


def test_a_condition_across_the_end_of_a_table_is_refused():
    document = Document()
    table = document.add_table(2, 1)
    table.cell(0, 0).text = "{%tr if not job.place %}"
    document.add_paragraph("{%p endif %}")
    out = io.BytesIO()
    document.save(out)

    with pytest.raises(BadTemplate, match="in the same table"):
        filled(out.getvalue(), job.filled_context(), job.MADE)


@pytest.mark.parametrize("blob", [b"", b"PK\x03\x04", b"%PDF-1.7", b"{\\rtf1}"])
def test_what_is_no_docx_is_refused(blob: bytes):
    with pytest.raises(BadTemplate, match="save it again"):
        filled(blob, job.filled_context(), job.MADE)


def test_a_zip_that_is_no_document_is_refused():
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("hello.txt", "hello")
    with pytest.raises(BadTemplate):
        filled(out.getvalue(), job.filled_context(), job.MADE)


@pytest.mark.parametrize(
    ("tag", "seconds"),
    [
        ("{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}", 1),
        ("{{ 'x' * 10**11 }}", 20),  # it is memory that ends this one
    ],
)
def test_a_template_without_end_is_stopped(tag: str, seconds: float):
    with pytest.raises(BadTemplate, match="more time or memory"):
        filled_apart(_template(tag), job.filled_context(), job.MADE, seconds=seconds)


def test_the_other_process_gives_the_same_bytes_and_the_same_refusals():
    words = job.filled_context()

    assert filled_apart(build(), words, job.MADE) == filled(build(), words, job.MADE)
    with pytest.raises(BadTemplate, match="try “reference”"):
        filled_apart(_template("{{ job.referance }}"), words, job.MADE)


def test_the_same_inputs_give_the_same_bytes(monkeypatch: pytest.MonkeyPatch):
    """Apart from the clock and the order of hashing, which another process has of its own."""
    words = job.filled_context()
    first = filled(build(), words, job.MADE)

    assert filled_apart(build(), words, job.MADE) == first
    later = filled(build(), words, datetime.fromisoformat("2026-03-22T17:30:00+00:00"))
    assert later != first


def test_the_document_names_no_author_and_bears_the_date_it_was_made():
    about = opened(filled(build(), job.filled_context(), job.MADE)).core_properties

    assert (about.author, about.last_modified_by) == ("", "")
    assert about.created is not None
    assert about.created.replace(tzinfo=None) == job.MADE.replace(tzinfo=None)
    assert about.modified == about.created


def test_no_name_in_the_context_hides_behind_a_method_of_a_mapping():
    """`line.items` in a template would find the method of dict, not the text."""

    def names(value: object) -> set[str]:
        if isinstance(value, dict):
            return set(value).union(*map(names, value.values()))
        return set().union(*map(names, value)) if isinstance(value, list) else set()

    assert not names(job.filled_context()) & set(dir(dict))


def test_the_context_is_plain_text_lists_and_mappings():
    def plain(value: object) -> bool:
        if isinstance(value, dict):
            return all(type(name) is str and plain(each) for name, each in value.items())
        return all(map(plain, value)) if type(value) is list else type(value) is str

    assert plain(job.filled_context())


def test_the_template_survives_being_kept_elsewhere(tmp_path: Path):
    copy = tmp_path / "mine.docx"
    copy.write_bytes(build())

    assert "Potting shed" in text(opened(filled(copy.read_bytes(), job.filled_context(), job.MADE)))


def test_a_template_without_identity_gets_it_at_the_head_and_foot_of_each_page():
    document = Document()
    document.add_paragraph("Mine for {{ job.place }}")
    document.sections[0].different_first_page_header_footer = True
    document.add_section().footer.is_linked_to_previous = False
    out = io.BytesIO()
    document.save(out)
    made = opened(filled(out.getvalue(), job.filled_context(), job.MADE))

    for section in made.sections:
        parts = [(section.header, section.footer)]
        if section.different_first_page_header_footer:
            parts.append((section.first_page_header, section.first_page_footer))
        for head, foot in parts:
            assert "INCOMPLETE: 2 readings missing" in "".join(p.text for p in head.paragraphs)
            said = "".join(each.text for each in foot.paragraphs)
            assert job.FINGERPRINT in said
            assert "not a certificate" in said
            assert "limits of BS 7671:2018+A2:2022" in said


def test_a_template_that_has_identity_gets_it_once():
    made = opened(filled(build(), job.filled_context(), job.MADE))  # as if it were one's own
    foot = "".join(each.text for each in made.sections[0].footer.paragraphs)

    assert foot.count("not a certificate") == 1


@pytest.mark.parametrize("way", ["hidden", "white", "tiny"])
def test_a_template_that_hides_its_identity_is_refused(way: str):
    """Text that can't be seen is there for a program, not for whoever reads the page."""
    document = Document()
    document.add_paragraph("Mine for {{ job.place }}")
    foot = document.sections[0].footer.paragraphs[0]
    run = foot.add_run("{{ schedule.every_page }} {{ schedule.identity }}")
    if way == "hidden":
        run.font.hidden = True
    elif way == "white":
        run.font.color.rgb = RGBColor(255, 255, 255)
    else:
        run.font.size = Pt(1)
    out = io.BytesIO()
    document.save(out)

    with pytest.raises(BadTemplate, match="hides at the foot of the pages"):
        filled(out.getvalue(), job.filled_context(), job.MADE)
