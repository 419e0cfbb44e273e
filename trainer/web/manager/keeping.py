"""What a manager says about the book itself: what was lost with another one, and where its check value is kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, RadioField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions import keeping
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.two_people import Second, seconds_for
from trainer.kitchen.book import THE_BOOK
from trainer.messages import Text, message, plural
from trainer.store.last_copy import last_copy
from trainer.web import guard, proving, witness
from trainer.web.filters import moment
from trainer.web.forms import KitchenForm, TextField
from trainer.web.manager.acts import ActPage
from trainer.web.page import go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import NeedsText, OneOfField

pages = Blueprint("keeping", __name__)
COPY_IS_OLD = timedelta(days=2)


@dataclass(frozen=True, slots=True)
class CopyTold:
    """What is known of the last copy in words, and whether somebody must do something about it."""

    words: Text
    is_bad: bool = False


def copy_words(k: Kitchen, now: datetime) -> CopyTold:
    """Return what is known of the kitchen's last copy; nothing for a demo, which is not copied by itself."""
    found = last_copy(k.file.folder)
    made = found.made()
    if k.file.settings.is_demo and made is None:
        return CopyTold("")
    if found.failed:
        when = moment(datetime.fromisoformat(found.failed_at))
        return CopyTold(message("No copy could be made ({when}): {why}", when=when, why=found.failed), is_bad=True)
    if made is None:
        return CopyTold(message("No copy was made yet."))
    words = message("{when}, {entries} entries", when=moment(made), entries=f"{found.entries:,}")
    return CopyTold(words, is_bad=now - made > COPY_IS_OLD and not k.file.settings.is_demo)


def copy_warning(k: Kitchen, now: datetime) -> Text:
    """Return what a manager must hear of the copies, on the first page they open; "" where all is well."""
    told = copy_words(k, now)
    if not told.is_bad:
        return ""
    return message("Copies of the book: {words}. Run trainer doctor on the machine itself.", words=told.words)


class LostForm(LatelyForm):
    """How many entries are lost, typed by whoever has read it."""

    count = TextField(
        message("How many entries are lost"), [NeedsText(message("Type the number of entries that are lost."))]
    )
    second = OneOfField(message("The second manager"))
    second_secret = PasswordField(
        message("PIN or passphrase of the second"), description=message("Let them type it themselves.")
    )
    secret = secret_field()
    expected = 0

    def validate_count(self, field: TextField) -> None:
        """Refuse another number than the one on the page: who types it has read it."""
        if "".join(str(field.data).replace(",", "").split()) != str(self.expected):
            raise StopValidation(message("The page says {count}. Type that number.", count=f"{self.expected:,}"))


class KeptForm(KitchenForm):
    """How the check value went out of the house, and who has it."""

    how = RadioField(
        message("How"),
        choices=[SelectChoice("printed", message("On paper")), SelectChoice("mailed", message("By mail"))],
        default="printed",
    )
    whom = TextField(message("Who has it"), [NeedsText(message("Say who has it, like Owner or Accountant."), 80)])


@pages.route("/book/kept", methods=["GET", "POST"])
@guard.needs("manager")
def kept() -> AnyResponse:
    """Note in the book that its check value is kept outside the house: who has it can show later what was changed."""
    form, head = KeptForm(), guard.kitchen().file.book.head()
    if form.is_sent_right():
        outcome = keeping.keep_head_outside(
            guard.kitchen(),
            by=guard.person().id,
            kept=keeping.Kept(form.how.data, form.whom.data),
            now=guard.now(),
            key=form.key.data,
        )
        if not isinstance(outcome, Refused):
            return go("manager.book.newest", saved=outcome.entry.id)
        form.refuse(outcome)
    title = message("The check value is kept outside")
    return show(
        ActPage(
            title=title,
            heading=title,
            lead=message(
                "The book's check value is {head}. Whoever has it outside the house can type it here later: it shows "
                "that nothing before it was changed.",
                head=head.short or message("none yet"),
            ),
            own_url=request.path,
            back=url_for("manager.book.verify"),
            back_words=message("Back, and change nothing"),
            words=message("Note it in the book"),
            form=form,
        )
    )


def _offer_seconds(form: LostForm) -> None:
    """Put the managers who could be the second on the list; where there is none, ask for nobody."""
    k = guard.kitchen()
    able = seconds_for(k, guard.person().id, THE_BOOK, k.day(guard.today()))
    if able:
        people = k.people()
        form.second.offer({who: people[who].name for who in able if who in people})
    else:
        del form.second, form.second_secret


def _second(form: LostForm) -> Second | None:
    """Return the second manager's word, typed on the spot; None where none is asked for, or it was refused."""
    return proving.word_of_another(form, form["second"].data, "second_secret") if "second" in form else None


@pages.route("/book/lost", methods=["GET", "POST"])
@guard.needs("manager")
def restored() -> AnyResponse:
    """Say that the book is this one now, where this device has seen another, and how many entries that costs."""
    seen = witness.disagreement()
    if seen is None:
        abort(404, message("This device and the book agree: nothing was lost that it knows of."))
    first = seen.count + 1 if seen.is_cut else 1
    lost, form = keeping.Lost(first, seen.head.size, seen.head.as_text()), LostForm()
    form.expected = lost.count
    _offer_seconds(form)
    is_right = form.is_sent_right() and proving.is_proved(form)
    second = _second(form) if is_right else None
    if is_right and not form.errors:
        outcome = keeping.say_what_was_lost(
            guard.kitchen(), by=guard.person().id, lost=lost, now=guard.now(), key=form.key.data, second=second
        )
        if not isinstance(outcome, Refused):
            return go("manager.book.newest", saved=outcome.entry.id)
        form.refuse(outcome)
    proving.leave_out(form)
    title = message("Go on with this book")
    entries = plural("{number} entry", "{number} entries", lost.count)
    return show(
        ActPage(
            title=title,
            heading=title,
            lead=message(
                "{words} If the right file can still be found, put that back instead. Else {entries} (numbers {first} "
                "to {last}) are lost, and the book says so from now on.",
                words=seen.words,
                entries=entries,
                first=f"{lost.first:,}",
                last=f"{lost.last:,}",
            ),
            own_url=request.path,
            back=url_for("manager.book.verify"),
            back_words=message("Back, and change nothing"),
            words=message("Go on with this book"),
            form=form,
        )
    )
