"""The open kitchen: caught up with every process, its board worked out once."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from threading import Event, Thread
from types import MappingProxyType
from typing import Literal

from tests.actions.crew import TODAY, Crew
from tests.kitchen.kitchen_for_tests import small_content
from trainer.actions.open_kitchen import Board, Kitchen
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Content
from trainer.store.kitchen_file import KitchenFile


def state_of(board: Board, cook: str, station: str) -> str:
    """Return the state in one cell of a board."""
    place = [each.id for each in board.stations].index(station)
    return next(row.clearances[place].state for row in board.rows if row.cook.id == cook)


def test_today_is_the_kitchens_day(crew: Crew) -> None:
    """04:59 UTC is still yesterday in New York in winter (tz database: UTC-5)."""
    assert crew.k.today(datetime(2026, 3, 3, 4, 59, tzinfo=UTC)) == TODAY
    assert crew.k.today(datetime(2026, 3, 3, 5, 0, tzinfo=UTC)) == date(2026, 3, 3)


def test_today_is_never_before_the_last_entrys_day(crew: Crew) -> None:
    """Whatever the machine's clock shows."""
    assert crew.k.today(datetime(2025, 3, 2, 17, tzinfo=UTC)) == TODAY


def test_what_another_process_writes_shows_at_the_next_call(crew: Crew) -> None:
    """Two open the same folder; one writes, the other sees."""
    other = Kitchen(KitchenFile.open(crew.k.file.folder), crew.k.content)
    assert state_of(other.board(TODAY), "ada", "cold_side") == "not started"
    crew.clears("ada")
    assert state_of(other.board(TODAY), "ada", "cold_side") == "cleared"
    other.file.close()


def test_the_fold_is_kept_while_nothing_is_written(crew: Crew) -> None:
    """The same fold, the same board: nothing is worked out twice."""
    assert crew.k.progress() is crew.k.progress()
    assert crew.k.board(TODAY) is crew.k.board(TODAY)


def test_an_entry_about_one_cook_leaves_the_rows_of_the_others(crew: Crew) -> None:
    """Ada's row is made again, Ben's is the same one."""
    before = {row.cook.id: row for row in crew.k.board(TODAY).rows}
    crew.clears("ada")
    after = {row.cook.id: row for row in crew.k.board(TODAY).rows}
    assert after["ben"] is before["ben"]
    assert after["ada"] is not before["ada"]


def test_a_changed_birth_date_changes_the_board(crew: Crew) -> None:
    """People are not in the book; a change of them shows at once."""
    crew.k.board(TODAY)
    crew.k.file.people.change(Person("ada", "Ada", None))
    assert state_of(crew.k.board(TODAY), "ada", "pasta_room") == "not allowed"


def test_changed_content_changes_the_board(crew: Crew) -> None:
    """A station that asks for no age any more."""
    crew.k.file.people.change(Person("ada", "Ada", None))
    assert state_of(crew.k.board(TODAY), "ada", "pasta_room") == "not allowed"
    crew.k.content = small_content(pasta_room={"minimum_age": None})
    assert state_of(crew.k.board(TODAY), "ada", "pasta_room") == "not started"


def test_the_board_of_a_day_has_the_cooks_of_that_day_by_name(crew: Crew) -> None:
    """Those on the roster then, and nobody who joined later, left before, or (as Mara) only manages."""
    crew.later(days=3)
    crew.joins("abe", "cook")
    crew.write("cook_left", "ben", {"reason": "moved"})
    assert [row.cook.id for row in crew.k.board(TODAY).rows] == ["ada", "ben", "nils", "sous"]
    assert [row.cook.id for row in crew.k.board(date(2026, 3, 5)).rows] == ["abe", "ada", "nils", "sous"]
    assert crew.k.board(date(2026, 3, 1)).rows == ()


def test_only_the_boards_asked_for_last_are_kept(crew: Crew) -> None:
    """Paging through a year does not fill the memory; what is asked again is the same."""
    boards = [crew.k.board(date(2026, 3, day)) for day in range(2, 12)]
    assert [crew.k.board(date(2026, 3, day)) for day in range(2, 12)] == boards


def test_a_book_put_back_from_a_backup_is_folded_anew(crew: Crew, tmp_path: Path) -> None:
    """What was written after the copy is gone from the fold as well."""
    copy = tmp_path / "copy.db"
    crew.k.file.back_up(copy)
    crew.clears("ada")
    assert state_of(crew.k.board(TODAY), "ada", "cold_side") == "cleared"
    crew.k.file.close()
    for left in crew.k.file.folder.glob("kitchen.db-*"):
        left.unlink()
    copy.replace(crew.k.file.path)
    assert state_of(crew.k.board(TODAY), "ada", "cold_side") == "not started"
    crew.write("cook_left", "ben", {"reason": "moved"})
    assert not crew.k.progress().is_on_roster("ben", TODAY)


def test_what_was_folded_inside_a_transaction_undone_is_forgotten(crew: Crew) -> None:
    """A whole import undone leaves nothing in the fold, not even after other entries took the places."""
    try:
        with crew.k.file.writing():
            crew.clears("ada")
            assert state_of(crew.k.board(TODAY), "ada", "cold_side") == "cleared"
            raise InterruptedError
    except InterruptedError:
        pass
    crew.clears("ben")
    board = crew.k.board(TODAY)
    assert state_of(board, "ada", "cold_side") == "not started"
    assert state_of(board, "ben", "cold_side") == "cleared"


def test_another_time_zone_moves_no_past_day(crew: Crew) -> None:
    """17:00 UTC on 2 March is the 3rd in Auckland (tz database: UTC+13): those who joined on the 2nd did so still."""
    before = [crew.k.board(TODAY + timedelta(days=number)) for number in range(-25, 25)]
    crew.k.file.change_settings(replace(crew.k.file.settings, timezone="Pacific/Auckland"))
    again = Kitchen(crew.k.file, crew.k.content)
    assert [again.board(TODAY + timedelta(days=number)) for number in range(-25, 25)] == before
    assert "ada" in again.progress().cooks_on(TODAY)
    assert crew.k.today(crew.now) == date(2026, 3, 3)


def test_many_threads_read_one_board(crew: Crew) -> None:
    """While one writes, eight read; none fails, and the last board has everything."""
    problems: list[Exception] = []

    def read() -> None:
        try:
            for _ in range(20):
                assert len(crew.k.board(TODAY).rows) >= 4
        except Exception as problem:
            problems.append(problem)

    readers = [Thread(target=read) for _ in range(8)]
    for reader in readers:
        reader.start()
    for number in range(10):
        crew.joins(f"new{number}", "cook")
    for reader in readers:
        reader.join()
    assert problems == []
    assert len(crew.k.board(TODAY).rows) == 14


def test_an_empty_book_has_an_empty_board(tmp_path: Path) -> None:
    """Before anybody joined."""
    from trainer.store.settings import Settings

    file = KitchenFile.create(tmp_path / "new", Settings("", "New"))
    assert Kitchen(file, small_content()).board(TODAY).rows == ()
    file.close()


class Library:
    """The same content with every technique under another title, but for one it lacks; it says what was asked of it."""

    def __init__(self, own: Content, lacks: str) -> None:
        """Take the kitchen's own content."""
        self.own, self.lacks, self.asked = own, lacks, list[tuple[str, str]]()
        self.is_open = Event()
        self.is_open.set()

    def __call__(self, language: str, units: Literal["us", "metric"]) -> Content:
        """Return the content told otherwise, once the library is open."""
        self.asked.append((language, units))
        assert self.is_open.wait(10)
        told = {name: replace(each, title=f"{language} {units}") for name, each in self.own.techniques.items()}
        del told[self.lacks]
        return replace(self.own, techniques=MappingProxyType(told))


def test_each_telling_is_read_once_and_leaves_nothing_out(crew: Crew) -> None:
    """What a language lacks is told as the kitchen has it; its own telling is never read again."""
    own = crew.k.content
    library = Library(own, lacks="fresh_pasta")
    k = Kitchen(crew.k.file, own, library)
    k.read_every_telling()
    assert sorted(library.asked) == [("en", "metric"), ("es", "metric"), ("es", "us")]
    assert k.content_for("en", "us") is own
    told = k.content_for("es", "metric")
    assert told is k.content_for("es", "metric")
    assert told.techniques.keys() == own.techniques.keys()
    assert told.techniques["cold_sauces"].title == "es metric"
    assert told.techniques["fresh_pasta"] is own.techniques["fresh_pasta"]
    assert len(library.asked) == 3


def test_nobody_else_waits_while_a_language_is_read(crew: Crew) -> None:
    """The first Spanish page of the day takes a moment; the board does not."""
    library = Library(crew.k.content, lacks="fresh_pasta")
    k = Kitchen(crew.k.file, crew.k.content, library)
    library.is_open.clear()
    readers = [Thread(target=k.content_for, args=("es", "us")) for _ in range(4)]
    others = Thread(target=lambda: k.board(TODAY))
    for thread in (*readers, others):
        thread.start()
    others.join(10)
    assert not others.is_alive()
    library.is_open.set()
    for thread in readers:
        thread.join(10)
    assert library.asked == [("es", "us")]
