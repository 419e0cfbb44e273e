"""Form fields that read what a person typed into a day or a whole number, and keep the text when they cannot."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from wtforms import Field, SelectField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import DataRequired, StopValidation, ValidationError

from trainer.messages import Message, Text, joined, message
from trainer.web.forms import KitchenForm, TextField
from trainer.web.reading import said

AS_ISO = message("Write year, month, day, like 2026-11-03.")
WHOLE = re.compile(r"[0-9]{1,6}")


def too_long(text: str, longest: int) -> Message:
    """Return the refusal of a text of more characters than are taken."""
    return message("This is {typed} characters long. At most {longest} are taken.", typed=len(text), longest=longest)


class AtMost:
    """Refuses a longer text with its length, in words that can be translated; a browser lets no more be typed."""

    def __init__(self, longest: int) -> None:
        """Take how many characters are taken."""
        self.longest = longest
        self.field_flags = {"maxlength": longest}

    def __call__(self, form: KitchenForm, field: Field) -> None:
        """Refuse a longer text."""
        del form
        if len(field.data or "") > self.longest:
            raise StopValidation(too_long(field.data, self.longest))


class NeedsText(DataRequired):  # type: ignore[misc]
    """Refuses an empty field with the words given, in the reader's language and not in the browser's."""

    def __init__(self, words: Text, longest: int = 300) -> None:
        """Take what to say when nothing is there, and how long the text may be."""
        super().__init__(words)
        self.at_most = AtMost(longest)
        self.field_flags: dict[str, object] = {}  # no `required`: a browser would refuse in a language of its own

    def __call__(self, form: KitchenForm, field: Field) -> None:
        """Refuse blank text and text that is too long."""
        super().__call__(form, field)
        self.at_most(form, field)


class DayField(TextField):
    """A day written as year, month, day; any other writing is asked back, never guessed."""

    day: date | None = None

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Read the day, or refuse with the value and the rule."""
        del form
        if validation_stopped or not self.data:
            return
        try:
            self.day = date.fromisoformat(self.data)
        except ValueError:
            words = message("“{typed}” is not a day.", typed=self.data[:40])
            raise ValidationError(joined([words, AS_ISO])) from None


class WholeField(TextField):
    """A whole number of things, blanks inside let pass; where nothing is needed, empty is none."""

    number: int | None = None

    def post_validate(self, form: KitchenForm, validation_stopped: bool) -> None:
        """Read the number, or refuse with the value and the rule."""
        del form
        text = str(self.data or "").replace(" ", "")
        if validation_stopped or not text:
            return
        if not WHOLE.fullmatch(text):
            raise ValidationError(
                message("“{typed}” is not a whole number. Write it in figures, like 40.", typed=str(self.data)[:40])
            )
        self.number = int(text)


CHOOSE = message("Choose")


class OneOfField(SelectField):  # type: ignore[misc]
    """A list to pick one from; the first line says that nothing is picked yet."""

    def offer(self, choices: Mapping[str, Text], nothing: Text = CHOOSE) -> None:
        """Put values with their words on the list, in the reader's language: the library prints them by itself."""
        lines = [SelectChoice("", said(nothing))] if nothing else []
        self.choices = [*lines, *(SelectChoice(value, said(words)) for value, words in choices.items())]

    def pre_validate(self, form: KitchenForm) -> None:
        """Refuse a value that is not on the list, and none at all."""
        del form
        offered = {choice.value for choice in self.choices or () if choice.value}
        if self.data not in offered:
            raise StopValidation(message("{field}: choose one from the list.", field=self.label.text))
