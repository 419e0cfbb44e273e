"""The tables of a kitchen's file, as migrations that run once each; `kitchen` is first in every key."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from trainer.kitchen.tree import as_bytes, leaf_of, with_leaf
from trainer.store.book_rows import COLUMNS, COLUMNS_BEFORE, KEEP_HEAD
from trainer.store.connections import Connections
from trainer.store.guards import GUARDS, GUARDS_BEFORE
from trainer.store.identity import day_in, moment
from trainer.store.problems import DamagedKitchen

if TYPE_CHECKING:
    from sqlite_utils import Database

FIRST_TABLES = (
    """CREATE TABLE settings (kitchen TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL, timezone TEXT NOT NULL,
    language TEXT NOT NULL, units_first TEXT NOT NULL, decimal_mark TEXT NOT NULL, is_demo INTEGER NOT NULL
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE book (seq INTEGER NOT NULL CHECK (seq > 0), kitchen TEXT NOT NULL, id TEXT NOT NULL,
    kind TEXT NOT NULL, at TEXT NOT NULL, cook TEXT NOT NULL, "by" TEXT NOT NULL, body TEXT NOT NULL, key TEXT NOT NULL,
    previous TEXT NOT NULL, hash TEXT NOT NULL,
    PRIMARY KEY (kitchen, seq), UNIQUE (kitchen, id), UNIQUE (kitchen, key),
    CONSTRAINT nobody_signs_their_own_practical CHECK (kind <> 'practical_watched' OR cook <> "by"),
    CONSTRAINT nobody_grants_themselves_a_station CHECK (kind <> 'station_opened' OR cook <> "by")
    ) STRICT, WITHOUT ROWID""",
    *GUARDS_BEFORE.values(),
    """CREATE TABLE people (kitchen TEXT NOT NULL, id TEXT NOT NULL, number TEXT, name TEXT NOT NULL, born TEXT,
    language TEXT NOT NULL, started TEXT, PRIMARY KEY (kitchen, id), UNIQUE (kitchen, number)) STRICT, WITHOUT ROWID""",
    """CREATE TABLE secrets (kitchen TEXT NOT NULL, person TEXT NOT NULL, hash TEXT NOT NULL, kind TEXT NOT NULL,
    must_change INTEGER NOT NULL, good_until TEXT, PRIMARY KEY (kitchen, person)) STRICT, WITHOUT ROWID""",
    """CREATE TABLE throttle (kitchen TEXT NOT NULL, who TEXT NOT NULL, wrong INTEGER NOT NULL, until TEXT,
    PRIMARY KEY (kitchen, who)) STRICT, WITHOUT ROWID""",
    """CREATE TABLE devices (kitchen TEXT NOT NULL, id TEXT NOT NULL, name TEXT NOT NULL, token_hash TEXT NOT NULL,
    enrolled_at TEXT NOT NULL, "by" TEXT NOT NULL, revoked_at TEXT, PRIMARY KEY (kitchen, id),
    UNIQUE (kitchen, token_hash)) STRICT, WITHOUT ROWID""",
    """CREATE TABLE sessions (kitchen TEXT NOT NULL, token_hash TEXT NOT NULL, person TEXT NOT NULL,
    device TEXT NOT NULL, opened_at TEXT NOT NULL, seen_at TEXT NOT NULL, proved_at TEXT NOT NULL,
    idle_minutes INTEGER NOT NULL, PRIMARY KEY (kitchen, token_hash)) STRICT, WITHOUT ROWID""",
    """CREATE TABLE drafts (kitchen TEXT NOT NULL, id TEXT NOT NULL, kind TEXT NOT NULL, about TEXT NOT NULL,
    cook TEXT NOT NULL, "by" TEXT NOT NULL, body TEXT NOT NULL, at TEXT NOT NULL, PRIMARY KEY (kitchen, id)
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE shifts (kitchen TEXT NOT NULL, "on" TEXT NOT NULL, sitting TEXT NOT NULL, cook TEXT NOT NULL,
    station TEXT NOT NULL, PRIMARY KEY (kitchen, "on", sitting, cook)) STRICT, WITHOUT ROWID""",
)


def first_tables(db: Database) -> None:
    """Make every table and guard of the first edition."""
    for sql in FIRST_TABLES:
        db.conn.execute(sql)


def own_units(db: Database) -> None:
    """Let everybody have their own units first; nothing means as the kitchen does."""
    db.conn.execute("ALTER TABLE people ADD COLUMN units TEXT NOT NULL DEFAULT ''")


def tries_of_a_pair(db: Database) -> None:
    """Count wrong tries for a person on a device; what was counted for whole devices and persons locks nobody now."""
    db.conn.execute("DROP TABLE throttle")
    db.conn.execute(
        """CREATE TABLE throttle (kitchen TEXT NOT NULL, person TEXT NOT NULL, device TEXT NOT NULL,
        wrong INTEGER NOT NULL, until TEXT NOT NULL, PRIMARY KEY (kitchen, person, device)) STRICT, WITHOUT ROWID"""
    )


def cast_of_a_demo(db: Database) -> None:
    """Keep who is made up in a demo kitchen; in one that is there already, all who have a PIN or passphrase."""
    db.conn.execute(
        """CREATE TABLE demo_cast (kitchen TEXT NOT NULL, person TEXT NOT NULL, PRIMARY KEY (kitchen, person)
        ) STRICT, WITHOUT ROWID"""
    )
    db.conn.execute(
        "INSERT INTO demo_cast SELECT secrets.kitchen, person FROM secrets JOIN settings USING (kitchen)"
        " WHERE is_demo = 1 AND kind IN ('pin', 'passphrase')"
    )


def questions_by_numbers(db: Database) -> None:
    """Change no table: from here on entries and drafts keep questions by their numbers.

    An older program cannot show those, and refuses the file in place of breaking on a page.
    """
    del db


BOOK = """CREATE TABLE book (kitchen TEXT NOT NULL, seq INTEGER NOT NULL CHECK (seq > 0), id TEXT NOT NULL,
    kind TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL, happened TEXT NOT NULL, cook TEXT NOT NULL,
    "by" TEXT NOT NULL, device TEXT NOT NULL, body TEXT NOT NULL, key TEXT NOT NULL, previous TEXT NOT NULL,
    hash TEXT NOT NULL, edition INTEGER NOT NULL,
    PRIMARY KEY (kitchen, seq), UNIQUE (kitchen, id), UNIQUE (kitchen, key),
    CONSTRAINT nobody_signs_their_own_practical CHECK (kind <> 'practical_watched' OR cook <> "by"),
    CONSTRAINT nobody_grants_themselves_a_station CHECK (kind <> 'station_opened' OR cook <> "by"),
    CONSTRAINT nothing_happens_after_it_is_written CHECK (happened <= day)
    ) STRICT, WITHOUT ROWID"""
BESIDE_THE_BOOK = (
    """CREATE TABLE heads (kitchen TEXT NOT NULL PRIMARY KEY, seq INTEGER NOT NULL, hash TEXT NOT NULL,
    frontier BLOB NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL) STRICT, WITHOUT ROWID""",
    """CREATE TABLE papers (kitchen TEXT NOT NULL, hash TEXT NOT NULL, bytes BLOB NOT NULL,
    PRIMARY KEY (kitchen, hash)) STRICT, WITHOUT ROWID""",
)


def book_of_edition_2(db: Database) -> None:
    """Give entries their days and device, the book its head and tree, and a place for the texts it names.

    Entries that are there stay as they were hashed, as edition 1; what the book says of them follows when it is opened.
    """
    run = db.conn.execute
    run("ALTER TABLE book RENAME TO old_book")
    for name in GUARDS_BEFORE:
        run(f"DROP TRIGGER {name}")
    for sql in (BOOK, *BESIDE_THE_BOOK):
        run(sql)
    run(f"INSERT INTO book ({COLUMNS}) SELECT {COLUMNS_BEFORE} FROM old_book ORDER BY kitchen, seq")  # noqa: S608
    run("DROP TABLE old_book")
    for sql in GUARDS.values():
        run(sql)
    zones = dict(run("SELECT kitchen, timezone FROM settings").fetchall())
    heads: dict[str, tuple[Any, ...]] = {}
    for kitchen, seq, own_hash, at in run("SELECT kitchen, seq, hash, at FROM book ORDER BY kitchen, seq").fetchall():
        peaks = with_leaf(heads[kitchen][2] if kitchen in heads else (), seq - 1, leaf_of(own_hash))
        heads[kitchen] = (seq, own_hash, peaks, at)
    for kitchen, (seq, own_hash, peaks, at) in heads.items():
        day = day_in(zones.get(kitchen, "UTC"), moment(at)).isoformat()
        run(KEEP_HEAD, (kitchen, seq, own_hash, as_bytes(peaks), at, day))


def invitations_of_devices(db: Database) -> None:
    """Keep the code a new device is enrolled with: one a kitchen, the newest."""
    db.conn.execute(
        """CREATE TABLE invitations (kitchen TEXT NOT NULL PRIMARY KEY, hash TEXT NOT NULL, "by" TEXT NOT NULL,
        good_until TEXT NOT NULL) STRICT, WITHOUT ROWID"""
    )


def proofs_and_first_codes(db: Database) -> None:
    """Keep since when a secret is its owner's, how a session was proved, and a first code beside the secret it ends."""
    run = db.conn.execute
    run("ALTER TABLE secrets ADD COLUMN since TEXT")
    run("ALTER TABLE sessions ADD COLUMN how TEXT NOT NULL DEFAULT ''")
    run("ALTER TABLE sessions ADD COLUMN secret_since TEXT")
    run(
        """CREATE TABLE first_codes (kitchen TEXT NOT NULL, person TEXT NOT NULL, hash TEXT NOT NULL,
        good_until TEXT NOT NULL, told INTEGER NOT NULL, PRIMARY KEY (kitchen, person)) STRICT, WITHOUT ROWID"""
    )
    run(
        "INSERT INTO first_codes (kitchen, person, hash, good_until, told)"
        " SELECT kitchen, person, hash, good_until, 0 FROM secrets WHERE kind = 'first_code' AND good_until IS NOT NULL"
    )
    run("DELETE FROM secrets WHERE kind = 'first_code' AND hash <> ''")


def second_words(db: Database) -> None:
    """Keep what a kitchen asks of a signer who trained the cook (nothing so far), and the sheets of recovery signs."""
    db.conn.execute("ALTER TABLE settings ADD COLUMN independence TEXT NOT NULL DEFAULT 'shown'")
    db.conn.execute(
        """CREATE TABLE recovery_sheets (kitchen TEXT NOT NULL PRIMARY KEY, hash TEXT NOT NULL, made_at TEXT NOT NULL
        ) STRICT, WITHOUT ROWID"""
    )


def currency_of_a_kitchen(db: Database) -> None:
    """Keep the currency a kitchen counts in; dollars so far."""
    db.conn.execute("ALTER TABLE settings ADD COLUMN currency TEXT NOT NULL DEFAULT 'USD'")


def own_phones(db: Database) -> None:
    """Keep whose own phone a device is (nobody's so far), who used which last, and what a PIN given before opens."""
    run = db.conn.execute
    run("ALTER TABLE devices ADD COLUMN owner TEXT")
    run(
        """CREATE TABLE device_uses (kitchen TEXT NOT NULL, device TEXT NOT NULL, person TEXT NOT NULL,
        at TEXT NOT NULL, PRIMARY KEY (kitchen, device, person)) STRICT, WITHOUT ROWID"""
    )
    run("ALTER TABLE settings ADD COLUMN own_phone TEXT NOT NULL DEFAULT 'study'")
    run("ALTER TABLE settings ADD COLUMN pin_hours INTEGER NOT NULL DEFAULT 12")


def look_and_words_seen(db: Database) -> None:
    """Let everybody have pages by day or by night (as the system says so far), and keep which words they have seen."""
    db.conn.execute("ALTER TABLE people ADD COLUMN look TEXT NOT NULL DEFAULT ''")
    db.conn.execute(
        """CREATE TABLE words_seen (kitchen TEXT NOT NULL, person TEXT NOT NULL, what TEXT NOT NULL, at TEXT NOT NULL,
        PRIMARY KEY (kitchen, person, what)) STRICT, WITHOUT ROWID"""
    )


def calendar_addresses(db: Database) -> None:
    """Keep the addresses under which calendars are read, each by the hash of its secret part."""
    db.conn.execute(
        """CREATE TABLE calendar_feeds (kitchen TEXT NOT NULL, token_hash TEXT NOT NULL, person TEXT NOT NULL,
        of TEXT NOT NULL, made_at TEXT NOT NULL, withdrawn_at TEXT, PRIMARY KEY (kitchen, token_hash)
        ) STRICT, WITHOUT ROWID"""
    )


def limit_of_not_cleared(db: Database) -> None:
    """Keep above how many in a hundred services run by somebody not cleared the house looks into it; ten so far."""
    db.conn.execute("ALTER TABLE settings ADD COLUMN not_cleared_in_100 INTEGER NOT NULL DEFAULT 10")


def own_services(db: Database) -> None:
    """Keep what a house calls its services (JSON, see `kitchen/own_services.py`); breakfast, lunch, dinner so far."""
    db.conn.execute("ALTER TABLE settings ADD COLUMN services TEXT NOT NULL DEFAULT '[]'")


MIGRATIONS: tuple[Callable[[Database], None], ...] = (
    first_tables,
    own_units,
    tries_of_a_pair,
    cast_of_a_demo,
    questions_by_numbers,
    book_of_edition_2,
    invitations_of_devices,
    proofs_and_first_codes,
    second_words,
    currency_of_a_kitchen,
    own_phones,
    look_and_words_seen,
    calendar_addresses,
    limit_of_not_cleared,
    own_services,
)
EDITION = len(MIGRATIONS)  # of the tables


def bring_up_to_date(connections: Connections) -> None:
    """Run the migrations a file still lacks, all or none; a file from a newer program is refused, not guessed at."""
    have = edition_of(connections)
    if have > EDITION:
        raise DamagedKitchen(
            f"{connections.path} was written by a newer edition of this program ({have}; this one knows {EDITION})."
        )
    if have < EDITION:
        with connections.writing():
            _apply(connections.borrowed())


def edition_of(connections: Connections) -> int:
    """Return the edition of the tables a file has; 0 for an empty file."""
    return int(connections.read("PRAGMA user_version")[0][0])


def _apply(connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
    """Apply the missing migrations inside the open transaction (sqlite-utils is slow to import: only when needed)."""
    from sqlite_utils import Database, Migrations

    migrations = Migrations("kitchen")
    for step in MIGRATIONS:
        migrations()(step)
    migrations.apply(Database(connection, execute_plugins=False))
    connection.execute(f"PRAGMA user_version = {EDITION}")
