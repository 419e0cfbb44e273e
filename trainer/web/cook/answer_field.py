"""The field of an answer, whichever way a question is answered; `cook/answering.html` draws it."""

from __future__ import annotations

from trainer.web.forms import TextField


class AnswerField(TextField):
    """An answer, typed or chosen: keys that come one by one are kept in a row, with a blank between.

    So an act that was chosen before, and is sent again beside its reason, stands in front of it.
    """

    def process_formdata(self, valuelist: list[str]) -> None:
        """Keep what was typed, or all that was chosen, in the order of the page."""
        super().process_formdata([" ".join(valuelist)])
