"""Which device what is done comes from, or this machine itself, and how whoever does it proved themselves."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from trainer.kitchen.proof import Proof

LOCAL_DEVICE, IMPORT = "local", "import"
_device: ContextVar[str] = ContextVar("device", default=LOCAL_DEVICE)
_proof: ContextVar[Proof | None] = ContextVar("proof", default=None)


@contextmanager
def acting_on(device: str, proof: Proof | None = None) -> Iterator[None]:
    """Enter what the body does as coming from this device: its id, `local` or `import`.

    With *proof*, what is signed in it carries that, or one given later (`prove`); else whatever was proved around it.
    """
    device_before, proof_before = _device.set(device), _proof.set(proof or _proof.get())
    try:
        yield
    finally:
        _proof.reset(proof_before)
        _device.reset(device_before)


def prove(proof: Proof | None) -> None:
    """Let what is signed from here on, to the end of what is acted on, carry this proof."""
    _proof.set(proof)


def acting_device() -> str:
    """Return the device what is done now comes from."""
    return _device.get()


def acting_proof() -> Proof | None:
    """Return how whoever does it proved who they are; None where nobody had to."""
    return _proof.get()
