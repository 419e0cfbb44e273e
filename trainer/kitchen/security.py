"""Which entries say who was let in, kept out or given a way in, and what was done to clock and book.

One list for whoever looks for a break-in: OWASP ASVS 5.0.0, 16.2.1 and 16.3.1 to 16.3.3 (from memory) ask for when,
where, who and what of each such event.
"""

from __future__ import annotations

from trainer.kitchen.book import Kind

SECURITY: tuple[Kind, ...] = (
    "locked_out",
    "first_code_given",
    "secret_changed",
    "recovery_used",
    "device_enrolled",
    "device_revoked",
    "phone_made_own",
    "phone_shared",
    "clock_confirmed",
    "clock_corrected",
    "book_restored",
)
