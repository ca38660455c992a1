"""The record file: open it, change the record, take changes back; nothing accepted is lost."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from itertools import islice
from pathlib import Path
from threading import RLock
from types import TracebackType

from records.disk import resolved
from records.errors import BadRecord, BadText, CannotOpen, CannotWrite
from records.model.record import Record
from records.store import container as files
from records.store.canonical import NOTHING_BEFORE, digest, fingerprint
from records.store.chain import Change, Fold, read_change
from records.store.container import Container
from records.store.copy_beside import Aside
from records.store.heading import check_is_file
from records.store.journal_files import has_unfinished_write
from records.store.migrating import is_older, migrate, migrated, migrated_words
from records.store.patch import Op, apply, copied, touched
from records.store.private_copy import followed, look
from records.store.state import lacking, plain, read, reread, tidied
from records.text import checked_text

_LONGEST_NAME = 200


@contextmanager
def _uncollected() -> Iterator[None]:
    """Spare the collector going over and over a long chain that is all kept, while it is read."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


class RecordFile:
    """A record and the file it stands in. Use it in a `with` block, or close it."""

    def __init__(self, container: Container, fold: Fold, record: Record, read_only: bool) -> None:
        self._container = container
        self._fold = fold
        self._record = record
        self._lock = RLock()
        self._doubtful: bytes | None = None
        self._aside = Aside()
        self.read_only = read_only
        """Whether it was opened to look only."""
        self.remark = ""
        """What the person should know about how it was opened; empty if there is nothing."""

    @classmethod
    def create(cls, path: Path, record: Record | None = None, by: str = "") -> RecordFile:
        """Make a new record file and open it.

        Args:
            path: Where; there must be nothing yet.
            record: What it starts with; None for a blank record.
            by: Who makes it.
        Raises:
            CannotWrite: If there is something already, or the disk doesn't take it.
            BadRecord: If `by` can't be shown.
        """
        record = Record() if record is None else record
        start = [{"op": "add", "path": "", "value": plain(record)}]
        change = Change(1, datetime.now(UTC), _named(by), tuple(start))
        said = digest(NOTHING_BEFORE, change.body)
        container = files.create(Path(path), [(change.body, said)])
        fold = Fold()
        fold.take(change.body, said)
        return cls(container, fold, record, read_only=False)

    @classmethod
    @_uncollected()
    def open(cls, path: Path, read_only: bool = False, at: int | None = None) -> RecordFile:
        """Open a record file.

        Args:
            path: Which.
            read_only: Whether to look only; this works while somebody else writes to it, shows
                the record as it stands now, and leaves the file alone.
            at: Look at the record as it was after the change with this number; nothing can be
                changed in the past, so this is for looking only.
        Raises:
            LookOnly: If it can't be opened for writing now, but to look.
            CannotOpen: If it is no whole record file, or has no such change. It has not been
                written to.
        """
        path = resolved(Path(path))
        read_only = read_only or at is not None
        check_is_file(path)
        older = files.held_here(path) is None and is_older(path)
        old = migrate(path) if older and not read_only else None
        if read_only and older:
            container = files.from_image(path, migrated(path))
            fold = followed(container, at)
        elif read_only:
            container, fold = look(path, at)
        else:
            if has_unfinished_write(path):
                look(path)  # if taking the unfinished write back gives no record, leave it alone
            container = files.open_to_write(path)
            try:
                fold = followed(container)
                container.settle()
            except CannotOpen:
                container.close()
                raise
        try:
            record = read(fold.doc)
        except BadRecord as error:
            container.close()
            raise CannotOpen(f"The record in {container.name} can't be read. {error}") from None
        opened = cls(container, fold, record, read_only)
        opened.remark = migrated_words(path, old) if old is not None else ""
        return opened

    @property
    def path(self) -> Path:
        """Where the file is."""
        return self._container.path

    @property
    def record(self) -> Record:
        """The record as it stands."""
        return self._record

    @property
    def fingerprint(self) -> str:
        """The last digest of the chain in short groups, such as `3F2A-91BC-07DE-55AA`."""
        return fingerprint(self._fold.digest)

    @property
    def number(self) -> int:
        """The number of the last change that the record holds."""
        return self._fold.number

    def change(self, ops: Sequence[Op], by: str = "", at: datetime | None = None) -> Record:
        """Change the record; when this returns, the change is on disk.

        Args:
            ops: JSON Patch operations (RFC 6902); see `records.store.edits`. A change that
                changes nothing isn't written.
            by: Who changes it.
            at: When; None for now.
        Returns:
            The record after the change.
        Raises:
            BadRecord: If the record would not hold together; nothing has changed.
            CannotWrite: If it can't be put on disk; nothing has changed.
        """
        with self._lock:
            self._make_sure()
            given = copied(ops)
            given = [*lacking(self._record, self._fold.doc, given), *given]
            return self._append(given, by, at)

    def without_last(self) -> Record | None:
        """Return the record as `undo` would leave it, changing nothing; None if there is none."""
        return self._peek(self._fold.undoable)

    def with_next(self) -> Record | None:
        """Return the record as `redo` would leave it, changing nothing; None if there is none."""
        return self._peek(self._fold.redoable)

    def undo(self, by: str = "") -> Record | None:
        """Take the latest change back, by a change of its own; None if there is none left."""
        return self._back(self._fold.undoable, by)

    def redo(self, by: str = "") -> Record | None:
        """Put on again what was taken back last; None if there is nothing, or it is too late."""
        return self._back(self._fold.redoable, by)

    def history(self) -> Iterator[Change]:
        """Return all changes that were made up to this state, the oldest first."""
        return (read_change(body) for body, _ in self._rows())

    def fingerprints(self) -> list[str]:
        """Return the fingerprint after each change, the oldest first."""
        return [fingerprint(said) for _, said in self._rows()]

    def image(self) -> bytes:
        """Return the bytes of the file as they are held here."""
        with self._lock:
            return self._container.image()

    def close(self) -> None:
        """Let go of the file."""
        self._container.close()

    def __enter__(self) -> RecordFile:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def _rows(self) -> list[tuple[str, bytes]]:
        with self._lock:
            return list(islice(self._container.rows(), self._fold.number))

    def _back(self, which: list[int], by: str) -> Record | None:
        with self._lock:
            self._make_sure()
            if not which:
                return None
            return self._append(copied(self._fold.backs[which[-1]]), by, None, which[-1])

    def _peek(self, which: list[int]) -> Record | None:
        with self._lock:
            if not which:
                return None
            doc = self._fold.doc
            done, back = apply(doc, copied(self._fold.backs[which[-1]]), undoing=True)
            try:
                return reread(self._record, doc, touched(done))
            finally:
                apply(doc, back, undoing=True)

    def _append(
        self, ops: list[Op], by: str, at: datetime | None, undoes: int | None = None
    ) -> Record:
        doc, undoing = self._fold.doc, undoes is not None
        done, back = apply(doc, ops, undoing=undoing)
        try:
            record = reread(self._record, doc, touched(done))
            tidy = None if undoing else tidied(self._record, doc, record, touched(done))
            if tidy is None:
                self._write(done, back, by, at, undoes)
        except BaseException:
            apply(doc, back, undoing=True)
            raise
        if tidy is not None:
            apply(doc, back, undoing=True)
            return self._append([*lacking(self._record, doc, tidy), *tidy], by, at)
        self._record = record
        return record

    def _write(
        self, done: list[Op], back: list[Op], by: str, at: datetime | None, undoes: int | None
    ) -> None:
        if not done:
            return
        change = Change(self._fold.number + 1, _moment(at), _named(by), tuple(done), undoes)
        body = change.body
        said = digest(self._fold.digest, body)
        try:
            self._container.append(change.number, body, said)
        except CannotWrite:
            self._doubtful = said
            raise
        self._fold.note(change, back, said)

    def _make_sure(self) -> None:
        """Refuse to write to a file that is no longer what was read from it.

        After a failed write, what the system still holds of the file can't be trusted, and the
        write may have gone through all the same: both show when the file is read again.
        """
        if self.read_only:
            raise CannotWrite(f"{self._container.name} was opened to look only.")
        if self._doubtful is None and self._container.is_as_left():
            return
        name, image = self._container.name, self._container.image()
        self._container.close()
        try:
            again = RecordFile.open(self.path)
        except CannotOpen as error:
            self._set_aside(image)
            raise CannotWrite(f"The file has become unusable. {error}{self._aside.said}") from None
        if again._fold.digest not in (self._fold.digest, self._doubtful):
            again.close()
            self._set_aside(image)
            raise CannotWrite(
                f"{name} was changed by something else since it was opened here, so nothing is "
                f"written to it. Open it again to see what it holds now.{self._aside.said}"
            )
        self._container, self._fold, self._record = again._container, again._fold, again._record
        self._doubtful = None

    def _set_aside(self, image: bytes) -> None:
        """Keep what was accepted here, for the file that it stood in is gone or another one."""
        self._doubtful = self._doubtful or self._fold.digest
        held = self._aside.keep(self.path, image, (self._fold.digest, self._doubtful))
        self._container = held or self._container


def _named(by: str) -> str:
    try:
        return checked_text(by, _LONGEST_NAME)
    except BadText as error:
        raise BadRecord(f"The name of who makes the change: {error}") from None


def _moment(at: datetime | None) -> datetime:
    if at is None:
        return datetime.now(UTC)
    if at.tzinfo is None:
        raise BadRecord("The time of a change needs its zone.")
    return at.astimezone(UTC)
