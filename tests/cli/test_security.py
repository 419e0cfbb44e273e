"""The list of who was let in or kept out, at the command line."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.conftest import NOW, Run
from tests.cli.test_secret import BOSS, NEW, boss_of, opened
from trainer.actions.enrolling import enrol_device, revoke_device


def test_the_newest_come_first_and_everything_else_is_left_out(run: Run, demo: Path) -> None:
    """A device let in and revoked, then a secret set on the machine; as many as asked for."""
    with opened(demo) as k:
        made = enrol_device(k, name="Tablet", by=boss_of(k), now=NOW)
        revoke_device(k, device=made.device.id, by=boss_of(k), now=NOW)  # type: ignore[union-attr]
    run("secret", BOSS, input=f"{NEW}\n{NEW}\n")
    lines = run("book", "security").output.splitlines()
    kinds = ("secret_changed", "device_revoked", "device_enrolled")
    assert [line.split(": ")[1].split(",")[0] for line in lines[:3]] == list(kinds)
    assert f"about {BOSS}, by local" in lines[0]
    records = [json.loads(line) for line in run("book", "security", "--json", "--last", "2").output.splitlines()]
    assert [record["kind"] for record in records] == list(kinds[:2])
    assert {"seq", "id", "at", "day", "cook", "by", "device", "body"} <= records[0].keys()
