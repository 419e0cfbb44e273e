"""Fields of the workbench: amounts as cooks write them, counts, percentages, several lines."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from wtforms import TextAreaField
from wtforms.validators import ValidationError

from trainer.kitchen.reading import read_number, read_quantity
from trainer.messages import Text, message
from trainer.recipe_math.quantity import Quantity, QuantityProblem
from trainer.web import guard
from trainer.web.forms import KitchenForm, TextField
from trainer.web.typed_fields import too_long

LONGEST = 4000
OWN_UNITS = {
    "temperature": ("°F", "°C"),
    "mass": ("oz", "g"),
    "volume": ("fl oz", "mL"),
    "length": ("in", "cm"),
    "temperature difference": ("°F difference", "°C difference"),
}
KINDS = {
    "temperature": message("a temperature"),
    "mass": message("a weight"),
    "volume": message("a volume"),
    "length": message("a length"),
    "temperature difference": message("a difference of degrees"),
}
EXAMPLES = {
    "temperature": message("135 F or 57 C"),
    "mass": message("4 oz or 120 g"),
    "volume": message("2 fl oz or 60 mL"),
    "length": message("2 1/2 in or 6 cm"),
    "temperature difference": message("26 F or 14 C"),
}


def own_unit(kind: str) -> str:
    """Return the unit of a bare number in this kitchen: °F or °C, oz or g. An address sent on means the same to all."""
    us, metric = OWN_UNITS[kind]
    return us if guard.kitchen().file.settings.units_first == "us" else metric


def own_length() -> Text:
    """Return the word for the unit of a bare length in this kitchen."""
    return {"in": message("inches"), "cm": message("centimetres")}[own_unit("length")]


class AmountField(TextField):
    """An amount as cooks write it, of the kinds given; a bare number is in the kitchen's own unit of the first kind."""

    def __init__(self, label: Text, kinds: tuple[str, ...], *, needed: bool = True, **more: Any) -> None:  # noqa: ANN401
        """Take the kinds of quantity that may be typed, and whether the field may stay empty."""
        super().__init__(label, **more)
        self.kinds = kinds
        self.needed = needed
        self.quantity: Quantity | None = None

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Read the amount, or refuse with the value and the rule."""
        del form
        if validation_stopped or (not self.data and not self.needed):
            return
        what, example = KINDS[self.kinds[0]], EXAMPLES[self.kinds[0]]
        if not self.data:
            raise ValidationError(
                message(
                    "{field} is empty. Write {what}, like {example}.", field=self.label.text, what=what, example=example
                )
            )
        mark = guard.kitchen().file.settings.decimal_mark
        try:
            read = read_quantity(self.data, own_unit(self.kinds[0]), mark)
        except QuantityProblem as problem:
            raise ValidationError(problem.reason) from problem
        typed = self.data[:40]
        if read.unit.dimension not in self.kinds:
            other = message(
                "“{typed}” is not {what}. Write it like {example}.", typed=typed, what=what, example=example
            )
            raise ValidationError(other)
        if read.unit.dimension != "temperature" and read.amount <= 0:
            none = message("“{typed}” is nothing. Write more than that, like {example}.", typed=typed, example=example)
            raise ValidationError(none)
        self.quantity = read

    def amount(self) -> Quantity:
        """Return what was read; only where the form works."""
        if self.quantity is None:
            raise ValueError(f"{self.label.text} holds no amount.")
        return self.quantity


class PercentField(TextField):
    """So many in a hundred; empty is none."""

    number: Fraction | None = None

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Read the number, or refuse with the value and the rule."""
        del form
        text = str(self.data or "").removesuffix("%").strip()
        if validation_stopped or not text:
            return
        try:
            self.number = read_number(text, guard.kitchen().file.settings.decimal_mark)
        except QuantityProblem as problem:
            raise ValidationError(problem.reason) from problem
        if not 0 < self.number <= 100:
            raise ValidationError(
                message("“{typed}” in a hundred is not possible. Write more than 0, and at most 100.", typed=text[:40])
            )


class LinesField(TextAreaField):  # type: ignore[misc]
    """Several lines of text, kept as typed."""

    def process_formdata(self, valuelist: list[str]) -> None:
        """Keep the text with plain line ends; a null byte is dropped."""
        self.data = valuelist[0].replace("\r\n", "\n").replace("\x00", "").strip("\n") if valuelist else ""

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Refuse nothing at all, and far too much."""
        del form
        if validation_stopped:
            return
        if not (self.data or "").strip():
            raise ValidationError(message("{field} is empty. Write one a line.", field=self.label.text))
        if len(self.data) > LONGEST:
            raise ValidationError(too_long(self.data, LONGEST))
