"""Which device what is done comes from: a request's, or this machine itself."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

LOCAL_DEVICE, IMPORT = "local", "import"
_device: ContextVar[str] = ContextVar("device", default=LOCAL_DEVICE)


@contextmanager
def acting_on(device: str) -> Iterator[None]:
    """Enter what the body does as coming from this device: its id, `local` or `import`."""
    before = _device.set(device)
    try:
        yield
    finally:
        _device.reset(before)


def acting_device() -> str:
    """Return the device what is done now comes from."""
    return _device.get()
