"""Adds readings to a record file for ever and says each number once it was accepted.

Run as a program by the tests, which end it at any moment.
"""

from __future__ import annotations

import sys
from pathlib import Path

from records.store.edits import append
from records.store.file import RecordFile
from tests.store.conftest import reading

with RecordFile.open(Path(sys.argv[1])) as file:
    print("open", flush=True)
    for number in range(len(file.record.readings) + 1, 100_000):
        file.change(append("/readings", reading(number, number / 1000)))
        print(number, flush=True)
