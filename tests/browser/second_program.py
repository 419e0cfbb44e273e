"""A second program on the same kitchen: stands a cook down. Run: python -m tests.browser.second_program FOLDER ..."""

from __future__ import annotations

import sys
from datetime import datetime
from pathlib import Path

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.standing import TakenOff, take_off
from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.store.kitchen_file import KitchenFile


def main(folder: str, manager: str, cook: str, station: str, now: str) -> None:
    """Stand *cook* down from *station* in the book of the kitchen in *folder*."""
    content, _ = load_content(shipped("content"))
    assert content is not None
    file = KitchenFile.open(Path(folder))
    off = TakenOff(cook, (station,), "seen", "The other program said so.")
    done = take_off(Kitchen(file, content), by=manager, off=off, now=datetime.fromisoformat(now), key="second program")
    assert isinstance(done, Saved), done
    file.close()


if __name__ == "__main__":
    main(*sys.argv[1:])
