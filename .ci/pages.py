"""Make PDF and PNG of schedules with LibreOffice, to look at, and count their pages.

Run by hand after the layout has changed: `.venv/bin/python .ci/pages.py OUT`. Needs soffice and
pdftoppm; installs nothing, and says so where they are missing. Ends with an error if a document has
more pages than it may.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from records.demo import demo_record
from records.document.schedule import write_schedule
from records.model.record import Record
from tests.document.generated import job_of

LIMITS = {"demo": 16, "empty": 3, "1": 9, "12": 15, "40": 34, "60": 54}
"""Pages that a schedule may have, annexes included; the demo has sheets of its surfaces in it."""
FIXTURES = Path(__file__).resolve().parents[1] / "fixtures"


def records() -> dict[str, Record]:
    """Return what to print, by name."""
    partial = json.loads((FIXTURES / "cider-house-first-pass" / "job.json").read_text("utf-8"))
    return {
        "demo": demo_record(),
        "empty": Record(),
        "partial": Record.model_validate_json(json.dumps(partial)),
        **{str(count): job_of(count) for count in (1, 12, 40, 60)},
    }


def main(out: Path) -> int:
    """Write all to a folder; return how many have too many pages."""
    if not shutil.which("soffice") or not shutil.which("pdftoppm"):
        print("LibreOffice or pdftoppm is missing: nothing to look at, no pages counted.")
        return 0
    out.mkdir(parents=True, exist_ok=True)
    bad = 0
    for name, record in records().items():
        document = out / f"{name}.docx"
        made = datetime(2026, 5, 1, tzinfo=UTC)
        write_schedule(record, document, fingerprint="3F2A-91BC-07DE-55AA", made=made)
        profile = f"-env:UserInstallation=file://{(out / 'profile').resolve()}"
        subprocess.run(
            ["soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", out, document],
            check=True,
            capture_output=True,
        )
        pdf = document.with_suffix(".pdf")
        subprocess.run(["pdftoppm", "-r", "100", "-png", pdf, out / name], check=True)
        said = subprocess.run(["pdfinfo", pdf], check=True, capture_output=True, text=True).stdout
        pages = int(re.findall(r"Pages:\s+(\d+)", said)[0])
        most = LIMITS.get(name, 99)
        bad += pages > most
        size = document.stat().st_size // 1024
        print(f"{name:8} {pages:3} pages of {most} at most, {size} KB")
    return bad


if __name__ == "__main__":
    raise SystemExit(main(Path(sys.argv[1])))
