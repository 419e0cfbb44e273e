"""A measured limit in words: one wording, in both systems of measures and in every language."""

from __future__ import annotations

import pytest

from tests.printed import english
from trainer.content.limits import limit_text as content_text
from trainer.kitchen.limit_text import InBoth, InOne, duration_text, ends_text, limit_text
from trainer.kitchen.technique import Limit
from trainer.messages import translate
from trainer.recipe_math.parsing import parse_quantity
from trainer.store.catalogues import translations


def limit(low: str = "", high: str = "", target: str = "") -> Limit:
    """Return a limit with these ends."""
    lowest, highest, aim = (parse_quantity(text) if text else None for text in (low, high, target))
    return Limit("l", lowest, highest, aim, "house")


LIMITS = (
    # 41 °F is 5 °C and 135 °F is 57 °C (FDA Food Code 2022, 3-501.16, which prints both); 1 oz is 28.35 g (NIST SP 811)
    (limit(high="41 F"), "at or below 41 °F (5 °C)", "41 °F (5 °C) o menos"),
    (limit(low="135 F"), "at or above 135 °F (57 °C)", "135 °F (57 °C) o más"),
    (limit(high="2 h"), "at most 2 hours", "como máximo 2 horas"),
    (limit(low="15 s"), "at least 15 seconds", "al menos 15 segundos"),
    (limit("4 oz", "5 oz"), "from 4 oz (113 g) to 5 oz (142 g)", "de 4 oz (113 g) a 5 oz (142 g)"),
    (limit(high="2 fl oz"), "at most 2 fl oz (59 mL)", "como máximo 2 oz fl (59 mL)"),
    (limit(high="2 cups"), "at most 2 cups (473 mL)", "como máximo 2 tazas (473 mL)"),
    (
        limit("60 F", "64 F", "62 F"),
        "62 °F (17 °C), give or take 2 °F (1 °C)",
        "62 °F (17 °C), más o menos 2 °F (1 °C)",
    ),
    (limit(target="3 dozen eggs"), "3 dozen eggs", "3 docenas de huevos"),
    (limit(), "", ""),
)


@pytest.mark.parametrize(("found", "in_english", "in_spanish"), LIMITS, ids=[each[1] for each in LIMITS])
def test_a_limit_reads_the_same_everywhere(found: Limit, in_english: str, in_spanish: str) -> None:
    """What a page prints of a limit is what the content's sentences print of it, word for word."""
    assert english(limit_text(found)) == content_text(found) == in_english
    assert translate(limit_text(found), translations("es")) == content_text(found, language="es") == in_spanish


def test_the_ends_alone_are_told_where_somebody_reads_a_scale() -> None:
    """Whatever the limit aims at; a target without ends is told itself."""
    aimed = limit("4.3 oz", "4.7 oz", "4.5 oz")
    assert english(ends_text(aimed, InOne("us"))) == "from 4.3 to 4.7 oz"
    assert english(ends_text(aimed, InOne("metric"))) == "from 122 to 133 g"
    assert english(ends_text(aimed, InBoth("us"))) == "from 4.3 oz (122 g) to 4.7 oz (133 g)"
    assert english(ends_text(limit(target="4.5 oz"), InOne("us"))) == "4.5 oz"
    assert english(ends_text(limit("13 oz", "1 lb 3 oz"), InOne("us"))) == "from 13 oz to 1 lb 3 oz"


@pytest.mark.parametrize(
    ("seconds", "printed"),
    [(0, "0 segundos"), (1, "1 segundo"), (3661, "1 hora 1 minuto 1 segundo"), (172_800, "48 horas")],
)
def test_a_time_is_counted_in_the_readers_language(seconds: int, printed: str) -> None:
    """Up to two days it stays in hours (common practice on labels)."""
    assert translate(duration_text(seconds), translations("es")) == printed
