"""The appendix holds the working of every figure, and what a figure refers to is there."""

from datetime import UTC, datetime

from records.demo import demo_record
from records.document.schedule import write_schedule
from records.document.workings import Workings
from records.expected.plan import expected
from records.expected.results import Worked
from tests.document.reading_back import opened, text


def test_every_figure_that_was_worked_out_stands_in_the_appendix(tmp_path):
    record = demo_record()
    result = expected(record)
    out = tmp_path / "schedule.docx"
    write_schedule(record, out, fingerprint="3F2A-91BC", made=datetime(2026, 3, 20, tzinfo=UTC))
    lines = set(text(opened(out)).splitlines())
    words = "\n".join(lines)
    workings = Workings(record, result)

    checked = 0
    for figures in (result.design, result.meter, result.measured):
        for key, each in figures.items():
            if isinstance(each, Worked):
                place = key[0] if isinstance(key, tuple) else key.place
                number = workings.number(place, each)
                assert number in lines, key
                assert each.put_in in words, key
                checked += 1
    assert checked > 100
