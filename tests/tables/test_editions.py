"""Whatever is cited from BS 7671 names the edition: its tables and numbers change between them."""

import importlib
import pkgutil
import re

import records
from records.demo import demo_record
from records.evidence import Source
from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.review import review
from records.tables.catalogue import all_tables

EDITION = re.compile(r"BS 7671:(2008|2018\+A2:2022)")


def sources_in_modules():
    for each in pkgutil.walk_packages(records.__path__, "records."):
        for name, value in vars(importlib.import_module(each.name)).items():
            if isinstance(value, Source):
                yield f"{each.name}.{name}", value


def test_every_source_from_bs_7671_names_its_edition():
    record = demo_record()
    result = expected(record)
    cited = [(entry.table, entry.source) for entry in all_tables()]
    cited += sources_in_modules()
    for figures in (result.design, result.meter, result.measured):
        for key, each in figures.items():
            if isinstance(each, Worked):
                cited += [(str(key), source) for source in each.sources]
    for line in review(record, result).lines:
        if line.limit is not None:
            cited.append((line.key, line.limit.source))

    named = {(where, str(each)) for where, each in cited if "BS 7671" in each.work}
    assert len(named) > 100
    assert {each for each in named if not EDITION.search(each[1])} == set()
