"""Drafts while entries of the record come and go."""

from records.drafts import closed_up, opened_up, swapped, without_orphans


def test_drafts_follow_their_entries_when_one_before_them_goes() -> None:
    drafts = {
        "/feed/runs/0/length": "a",
        "/feed/runs/1/length": "b",
        "/feed/runs/2/length": "c",
        "/feed/runs/10/where": "d",
        "/feed/load": "e",
        "/circuits/2/name": "f",
    }
    closed_up(drafts, "/feed/runs", 1)

    assert drafts == {
        "/feed/runs/0/length": "a",
        "/feed/runs/1/length": "c",
        "/feed/runs/9/where": "d",
        "/feed/load": "e",
        "/circuits/2/name": "f",
    }


def test_only_drafts_of_fields_that_are_gone_are_dropped() -> None:
    drafts = {"/feed/runs/0/length": "a", "/feed/runs/1/length": "b", "A question: note": "c"}
    without_orphans(drafts, {"feed": {"runs": [{"length": None}]}})

    assert drafts == {"/feed/runs/0/length": "a", "A question: note": "c"}


def test_drafts_follow_an_entry_that_is_put_in_or_moved():
    drafts = {"/feed/runs/0/length": "4", "/feed/runs/1/length": "5", "/job/place": "x"}

    opened_up(drafts, "/feed/runs", 1)
    assert drafts == {"/feed/runs/0/length": "4", "/feed/runs/2/length": "5", "/job/place": "x"}
    swapped(drafts, "/feed/runs", 2, 0)
    assert drafts == {"/feed/runs/2/length": "4", "/feed/runs/0/length": "5", "/job/place": "x"}
