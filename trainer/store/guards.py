"""The guards of the book: what the database itself refuses, whoever writes to it."""

from __future__ import annotations

GUARDS_BEFORE = {
    "book_keeps_what_it_has": """CREATE TRIGGER book_keeps_what_it_has BEFORE INSERT ON book
    WHEN EXISTS (SELECT 1 FROM book WHERE kitchen = NEW.kitchen AND seq = NEW.seq)
      OR EXISTS (SELECT 1 FROM book WHERE kitchen = NEW.kitchen AND id = NEW.id)
      OR EXISTS (SELECT 1 FROM book WHERE kitchen = NEW.kitchen AND key = NEW.key)
    BEGIN SELECT RAISE(ABORT, 'the book keeps what it has: an entry with this seq, id or key is there'); END""",
    "book_grows_at_its_end": """CREATE TRIGGER book_grows_at_its_end BEFORE INSERT ON book
    WHEN NEW.seq <> 1 + coalesce((SELECT max(seq) FROM book WHERE kitchen = NEW.kitchen), 0)
      OR NEW.previous <> coalesce((SELECT hash FROM book WHERE kitchen = NEW.kitchen ORDER BY seq DESC LIMIT 1),
                                  '0000000000000000000000000000000000000000000000000000000000000000')
    BEGIN SELECT RAISE(ABORT, 'the book grows at its end only'); END""",
    "book_is_never_changed": """CREATE TRIGGER book_is_never_changed BEFORE UPDATE ON book
    BEGIN SELECT RAISE(ABORT, 'an entry is never changed; a later entry corrects it'); END""",
    "book_loses_nothing": """CREATE TRIGGER book_loses_nothing BEFORE DELETE ON book
    BEGIN SELECT RAISE(ABORT, 'an entry is never taken out; a later entry voids it'); END""",
}
"""The guards of a file whose tables are those of an earlier program, by name."""

GUARDS = {
    **GUARDS_BEFORE,
    "book_grows_at_its_end": """CREATE TRIGGER book_grows_at_its_end BEFORE INSERT ON book
    WHEN NEW.edition < 2
      OR NEW.seq <> 1 + coalesce((SELECT seq FROM heads WHERE kitchen = NEW.kitchen), 0)
      OR NEW.previous <> coalesce((SELECT hash FROM heads WHERE kitchen = NEW.kitchen),
                                  '0000000000000000000000000000000000000000000000000000000000000000')
    BEGIN SELECT RAISE(ABORT, 'the book grows at its end only'); END""",
    "papers_are_never_changed": """CREATE TRIGGER papers_are_never_changed BEFORE UPDATE ON papers
    BEGIN SELECT RAISE(ABORT, 'a text beside the book is never changed'); END""",
}
"""By name; a check compares the words, not the names alone."""
