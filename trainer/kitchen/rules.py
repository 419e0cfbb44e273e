"""The rules of a standard: all a clearance asks of what is taught, as the book keeps it, and nothing a page prints.

Names are left out: a thing is called by its id until it is printed (`Content.name_of`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from typing import Any

from trainer.kitchen.quiz.sequential_test import kept, plan_kept
from trainer.kitchen.technique import (
    CertificateAsked,
    Content,
    Edition,
    LocalCode,
    Point,
    Practice,
    QuestionSetting,
    Station,
    Technique,
)

FORM = 1
"""The form rules are written in; rules of a later form were written by a newer program."""
NO_CODE = LocalCode("", "", "", {})


class NewerRules(ValueError):
    """Raised for rules in a form this program does not know: a newer one wrote them."""


def rules_of(content: Content) -> dict[str, Any]:
    """Return the rules of what is taught, as canonical JSON can hold them: texts, whole numbers, lists, dicts, null."""
    return {
        "form": FORM,
        "stations": [_station_rules(station) for station in content.stations.values()],
        "techniques": [_technique_rules(technique) for technique in content.techniques.values()],
    }


def are_known(rules: Mapping[str, Any]) -> bool:
    """Return whether rules are in a form this program knows."""
    return rules.get("form") == FORM


def content_of(rules: Mapping[str, Any]) -> Content:
    """Return content that holds exactly what the rules say, every title the id; raise `NewerRules` for another form."""
    if not are_known(rules):
        raise NewerRules(f"The rules of a standard are in form {rules.get('form')}: a newer program wrote them.")
    return Content(
        techniques={one["id"]: _technique(one) for one in rules["techniques"]},
        stations={one["id"]: _station(one) for one in rules["stations"]},
        code=NO_CODE,
        sources={},
        allergens={},
    )


def _station_rules(station: Station) -> dict[str, Any]:
    return {
        "id": station.id,
        "techniques": list(station.techniques),
        "certificates": [_paper_rules(paper) for paper in station.certificates],
        "minimum_age": station.minimum_age,
        "supervised_shifts": station.supervised_shifts,
        "warn_days": station.warn_days,
        **({"practice": asdict(station.practice)} if station.practice else {}),
    }


def _station(rules: Mapping[str, Any]) -> Station:
    papers = tuple(map(_paper, rules["certificates"]))
    return Station(
        id=rules["id"],
        title=rules["id"],
        techniques=tuple(rules["techniques"]),
        certificates=papers,
        minimum_age=rules["minimum_age"],
        age_reason=rules["id"],
        supervised_shifts=rules["supervised_shifts"],
        warn_days=rules["warn_days"],
        practice=Practice(**rules["practice"]) if "practice" in rules else None,
    )


def _paper_rules(paper: CertificateAsked) -> dict[str, Any]:
    """Return what is asked of a paper; what is not asked is left out, as in rules of before."""
    bounds = {"grace_days": paper.grace_days, "most_years": paper.most_years}
    return {"id": paper.id, "bars": paper.bars, **{name: asked for name, asked in bounds.items() if asked}}


def _paper(rules: Mapping[str, Any]) -> CertificateAsked:
    grace_days, most_years = rules.get("grace_days", 0), rules.get("most_years", 0)
    return CertificateAsked(rules["id"], rules["id"], rules["bars"], grace_days, most_years)


def _technique_rules(technique: Technique) -> dict[str, Any]:
    return {
        "id": technique.id,
        "editions": [_edition_rules(edition) for edition in technique.editions],
        "quiz": _quiz_rules(technique) if technique.questions else None,
        "sign_off_months": technique.sign_off_months,
        "checklist": {
            "critical": [point.id for point in technique.checklist if point.critical],
            "scored": [point.id for point in technique.checklist if not point.critical],
        },
    }


def _edition_rules(edition: Edition) -> dict[str, Any]:
    missed = {"unless_missed": list(edition.unless_missed)} if edition.unless_missed else {}
    since = edition.since.isoformat()
    return {"number": edition.number, "since": since, "sign_offs_hold": edition.sign_offs_hold, **missed}


def _quiz_rules(technique: Technique) -> dict[str, Any]:
    return {
        "need_right": technique.need_right,
        "asked": technique.asked,
        "plan": kept(technique.plan) if technique.plan else None,
        "months": technique.quiz_months,
        "safety_percent": technique.safety_percent,
        "waits": list(technique.waits),
    }


def _technique(rules: Mapping[str, Any]) -> Technique:
    return Technique(
        id=rules["id"],
        title=rules["id"],
        goal="",
        editions=tuple(_edition(one) for one in rules["editions"]),
        words=(),
        standard=(),
        standard_text=(),
        tools=(),
        steps=(),
        faults=(),
        hazards=(),
        allergens=(),
        checklist=_checklist(rules["checklist"]),
        scored_needed=0,
        sign_off_months=rules["sign_off_months"],
        sources=(),
        **_quiz(rules["quiz"]),
    )


def _edition(rules: Mapping[str, Any]) -> Edition:
    since, missed = date.fromisoformat(rules["since"]), tuple(rules.get("unless_missed", ()))
    return Edition(rules["number"], since, "", rules["sign_offs_hold"], missed)


def _checklist(rules: Mapping[str, Any]) -> tuple[Point, ...]:
    """Return the points, the critical ones first: no clearance asks in which sequence a page has them."""
    names = (*rules["critical"], *rules["scored"])
    return tuple(Point(name, name, name in rules["critical"], "ticked", None) for name in names)


def _quiz(rules: Mapping[str, Any] | None) -> dict[str, Any]:
    """Return the fields of a technique that are about its quiz: that it has questions, and not which."""
    if rules is None:
        return {"questions": (), "need_right": 0, "quiz_months": 0}
    return {
        "questions": (QuestionSetting("", {}, {}, rules["asked"]),),
        "need_right": rules["need_right"],
        "plan": plan_kept(rules["plan"]) if rules["plan"] else None,
        "quiz_months": rules["months"],
        "safety_percent": rules["safety_percent"],
        "waits": tuple(rules["waits"]),
    }
