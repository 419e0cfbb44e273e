"""The crew's kitchen, as the actions' own tests have it."""

from tests.actions.conftest import crew, prepared

__all__ = ["crew", "prepared"]
