"""The currency a kitchen counts in: its sign, and which side of the amount it stands on in a language.

Money in a question is printed by one pattern, that of dollars; `in_currency` puts the kitchen's own in its place. The
figures stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from trainer.messages import Message, Translations, message

USD = "USD"
MONEY = message("${amount}")
SIGN = message("$")
"""The sign by itself, beside the field an amount is typed in."""
PATTERNS: Mapping[str, Message] = MappingProxyType(
    {
        **dict.fromkeys(("USD", "MXN", "CAD", "AUD", "NZD", "ARS", "CLP", "COP", "UYU", "DOP"), MONEY),
        "EUR": message("€{amount}"),
        "GBP": message("£{amount}"),
        "PEN": message("S/ {amount}"),
        "GTQ": message("Q{amount}"),
        "CRC": message("₡{amount}"),
        "HNL": message("L {amount}"),
        "NIO": message("C$ {amount}"),
        "BOB": message("Bs {amount}"),
        "PYG": message("₲{amount}"),
        "BRL": message("R${amount}"),
        "JPY": message("¥{amount}"),
        "CNY": message("¥{amount}"),
        "INR": message("₹{amount}"),
        "PHP": message("₱{amount}"),
        "KRW": message("₩{amount}"),
        "ILS": message("₪{amount}"),
    }
)
"""How the people who pay in a currency write an amount of it; any other stands behind its code."""
_IN_USE = (
    "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CLP "
    "CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG "
    "HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL "
    "MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR "
    "RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS "
    "UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG "
)
CODES = frozenset(_IN_USE.split())
"""The currencies in use (ISO 4217)."""


class InCurrency(NamedTuple):
    """A language's catalogue with a currency: amounts of money come in its pattern."""

    catalogue: Translations
    pattern: str

    def gettext(self, message: str, /) -> str:
        """Return a pattern in the language, that of money in the currency."""
        if message == MONEY.pattern:
            return self.catalogue.gettext(self.pattern)
        if message == SIGN.pattern:
            return sign_of(self.pattern)
        return self.catalogue.gettext(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        """Return the pattern for a count."""
        return self.catalogue.ngettext(msgid1, msgid2, n)


def in_currency(catalogue: Translations, code: str) -> Translations:
    """Return a catalogue in which an amount of money is one of this currency.

    >>> from trainer.messages import ENGLISH, translate
    >>> translate(message("${amount}", amount="12.50"), in_currency(ENGLISH, "GBP"))
    '£12.50'
    """
    known = PATTERNS.get(code)
    pattern = known.pattern if known is not None else f"{code} {{amount}}"
    return catalogue if pattern == MONEY.pattern else InCurrency(catalogue, pattern)


def sign_of(pattern: str) -> str:
    """Return what stands beside the amount in a pattern.

    >>> sign_of("€{amount}")
    '€'
    """
    return pattern.replace("{amount}", "").strip()


_SIGNS = "|".join(
    sorted({*(re.escape(sign_of(each.pattern)) for each in PATTERNS.values()), *CODES}, key=len, reverse=True)
)
_AMOUNT = re.compile(rf"\s*(?:{_SIGNS})?\s*(?P<amount>[^A-Za-z]*?)\s*(?:{_SIGNS})?\s*", re.IGNORECASE)


def without_sign(text: str) -> str:
    """Return an amount of money as typed, its sign or code taken off on either side.

    >>> without_sign("12,50 €"), without_sign("S/ 12.50"), without_sign("GTQ 12"), without_sign("3 lb")
    ('12,50', '12.50', '12', '3 lb')
    """
    found = _AMOUNT.fullmatch(text)
    return found["amount"] if found else text
