"""Time of a whole schedule against a bare docxtpl render of the same template and context.

Run by hand: `python -m tests.bench.schedule`. Prints, for 1, 12 and 60 circuits, how many times as
long filling takes, and making all of it from the record (expectations and review included).
"""

from __future__ import annotations

import io
from collections.abc import Callable
from time import process_time

from docxtpl import DocxTemplate
from jinja2 import Environment

from records.document.context import context
from records.document.filling import filled
from records.document.ink import with_ink
from records.document.schedule import own_template, schedule_bytes
from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.todo.progress import progress
from tests.document import job
from tests.document.generated import job_of


def best(times: int = 5, **works: Callable[[], object]) -> dict[str, float]:
    """Return the shortest of several times of each, turn about [s of the processor]."""
    found = dict.fromkeys(works, float("inf"))
    for _ in range(times):
        for name, work in works.items():
            start = process_time()
            work()
            found[name] = min(found[name], process_time() - start)
    return found


def main() -> None:
    """Print the ratios."""
    template = own_template()
    for count in (1, 12, 60):
        record = job_of(count)
        follows = expected(record)
        verdicts = review(record, follows)
        steps = progress(record, verdicts)
        values = context(
            record, follows, verdicts, steps, fingerprint=job.FINGERPRINT, made=job.MADE
        )
        texts = with_ink(values)

        def bare(texts: object = texts) -> None:
            page = DocxTemplate(io.BytesIO(template))
            page.render(texts, Environment(), autoescape=True)
            page.save(io.BytesIO())

        took = best(
            bare=bare,
            fill=lambda values=values: filled(template, values, job.MADE, own=True),
            whole=lambda record=record: schedule_bytes(
                record, fingerprint=job.FINGERPRINT, made=job.MADE
            ),
        )
        fill, whole = (took[name] / took["bare"] for name in ("fill", "whole"))
        print(
            f"{count:3} circuits: fill {fill:.2f}, whole {whole:.2f} × bare docxtpl, "
            f"{took['bare'] * 1000:.0f} ms"
        )


if __name__ == "__main__":
    main()
