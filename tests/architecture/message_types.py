"""What the type checker cannot see by itself: a message put into an f-string, into `str()` or on a terminal.

Every object may go into an f-string, so a message would raise only when that line runs. This plugin of mypy (named in
`pyproject.toml`) asks the type instead: such a line is an error before anything runs.
"""

from __future__ import annotations

from collections.abc import Callable

from mypy.nodes import CallExpr, StrExpr
from mypy.plugin import FunctionContext, MethodContext, Plugin
from mypy.types import Instance, Type, UnionType, get_proper_type

MESSAGE = "trainer.messages.message.Message"
FUNCTIONS = frozenset({"builtins.str", "builtins.format", "builtins.print", "click.utils.echo", "click.termui.secho"})
HINT = "a message is printed by translate(): it goes into no f-string, str() or echo"


class MessageTypes(Plugin):
    """Refuses a message wherever it would be made a text without being printed."""

    def get_method_hook(self, fullname: str) -> Callable[[MethodContext], Type] | None:
        """Return the check of `str.format`, which is what mypy makes of an f-string."""
        return _checked_pattern if fullname == "builtins.str.format" else None

    def get_function_hook(self, fullname: str) -> Callable[[FunctionContext], Type] | None:
        """Return the check of what prints."""
        return _checked if fullname in FUNCTIONS else None


def _checked_pattern(call: MethodContext) -> Type:
    """Check an f-string, but for `{value!r}`, which shows how a message is made."""
    pattern = call.context.callee.expr if isinstance(call.context, CallExpr) else None  # type: ignore[attr-defined]
    is_repr = isinstance(pattern, StrExpr) and pattern.value.startswith("{!r")
    return call.default_return_type if is_repr else _checked(call)


def _checked(call: FunctionContext | MethodContext) -> Type:
    for types, values in zip(call.arg_types, call.args, strict=True):
        for found, value in zip(types, values, strict=True):
            if _may_be_message(found):
                call.api.fail(HINT, value)
    return call.default_return_type


def _may_be_message(found: Type) -> bool:
    proper = get_proper_type(found)
    if isinstance(proper, UnionType):
        return any(_may_be_message(item) for item in proper.items)
    return isinstance(proper, Instance) and proper.type.fullname == MESSAGE


def plugin(version: str) -> type[Plugin]:
    """Return the plugin, for any version of mypy."""
    del version
    return MessageTypes
