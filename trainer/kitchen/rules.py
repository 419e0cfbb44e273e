"""The rules of a standard: all a clearance asks of what is taught, as the book keeps it, and nothing a page prints.

Names are left out: a thing is called by its id until it is printed (`Content.name_of`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import date
from fractions import Fraction
from typing import Any

from trainer.kitchen.book import canonical, digest_of
from trainer.kitchen.quiz.sequential_test import kept, plan_kept
from trainer.kitchen.technique import (
    AskedSkill,
    CertificateAsked,
    ChecklistPart,
    Content,
    Edition,
    LocalCode,
    Point,
    Practice,
    QuestionSetting,
    Station,
    Technique,
)

FORM, FORM_WITH_SKILLS, FORM_WITH_PARTS = 1, 2, 3
"""The forms rules are written in: as ever, with skills, with parts of checklists; a later form is a newer program's."""
NO_CODE = LocalCode("", "", "", {})
PAPER_BOUNDS = ("grace_days", "most_years", "within_days")


class NewerRules(ValueError):
    """Raised for rules in a form this program does not know: a newer one wrote them."""


def rules_of(content: Content) -> dict[str, Any]:
    """Return the rules of what is taught, as canonical JSON can hold them: texts, whole numbers, lists, dicts, null.

    A skill that no technique asks for is no rule.
    """
    asked = {skill.id for technique in content.techniques.values() for skill in technique.knowledge}
    skills = [_skill_rules(skill) for skill in content.skills.values() if skill.id in asked]
    return {
        "form": _form(content, bool(skills)),
        **({"skills": skills} if skills else {}),
        "stations": [_station_rules(station) for station in content.stations.values()],
        "techniques": [_technique_rules(technique) for technique in content.techniques.values()],
    }


def _form(content: Content, has_skills: bool) -> int:
    """Return the form rules are written in: an older program must not take one part for the whole."""
    if any(technique.parts for technique in content.techniques.values()):
        return FORM_WITH_PARTS
    return FORM_WITH_SKILLS if has_skills else FORM


def are_known(rules: Mapping[str, Any]) -> bool:
    """Return whether rules are in a form this program knows."""
    return rules.get("form") in (FORM, FORM_WITH_SKILLS, FORM_WITH_PARTS)


def content_of(rules: Mapping[str, Any]) -> Content:
    """Return content that holds exactly what the rules say, every title the id; raise `NewerRules` for another form."""
    if not are_known(rules):
        raise NewerRules(f"The rules of a standard are in form {rules.get('form')}: a newer program wrote them.")
    skills = {one["id"]: _skill(one) for one in rules.get("skills", ())}
    return Content(
        skills=skills,
        techniques={one["id"]: _technique(one, skills) for one in rules["techniques"]},
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
    bounds = {name: getattr(paper, name) for name in PAPER_BOUNDS}
    return {"id": paper.id, "bars": paper.bars, **{name: asked for name, asked in bounds.items() if asked}}


def _paper(rules: Mapping[str, Any]) -> CertificateAsked:
    bounds = {name: rules.get(name, 0) for name in PAPER_BOUNDS}
    return CertificateAsked(rules["id"], rules["id"], rules["bars"], **bounds)


def _technique_rules(technique: Technique) -> dict[str, Any]:
    return {
        "id": technique.id,
        "editions": [_edition_rules(edition) for edition in technique.editions],
        "quiz": _quiz_rules(technique) if technique.questions else None,
        **_knowledge_rules(technique),
        "sign_off_months": technique.sign_off_months,
        "checklist": {
            "critical": [point.id for point in technique.checklist if point.critical],
            "scored": [point.id for point in technique.checklist if not point.critical],
            **({"parts": {part.id: list(part.points) for part in technique.parts}} if technique.parts else {}),
        },
    }


def _edition_rules(edition: Edition) -> dict[str, Any]:
    missed = {"unless_missed": list(edition.unless_missed)} if edition.unless_missed else {}
    since = edition.since.isoformat()
    return {"number": edition.number, "since": since, "sign_offs_hold": edition.sign_offs_hold, **missed}


def _knowledge_rules(technique: Technique) -> dict[str, Any]:
    """Return which skills are asked for, and from when those that were not among the first; nothing for a quiz."""
    if not technique.knowledge:
        return {}
    added = {id: since.isoformat() for id, since in technique.added.items()}
    return {"knowledge": [skill.id for skill in technique.knowledge], **({"added": added} if added else {})}


def _skill_rules(skill: AskedSkill) -> dict[str, Any]:
    """Return what a skill asks for; its ranges as a digest, since no clearance looks into them."""
    setting = skill.setting
    ranges = {name: [str(each) for each in span] for name, span in setting.ranges.items()}
    return {
        "id": skill.id,
        "family": setting.family,
        "ranges": digest_of(canonical(ranges).encode()),
        "safety": skill.is_safety,
        "months": skill.months,
        "luck": str(skill.luck),
        "base": skill.base,
    }


def _skill(rules: Mapping[str, Any]) -> AskedSkill:
    setting = QuestionSetting(rules["family"], {}, {}, 1)
    luck, name = Fraction(rules["luck"]), rules["id"]
    return AskedSkill(name, name, setting, rules["safety"], rules["months"], luck, rules["base"])


def _quiz_rules(technique: Technique) -> dict[str, Any]:
    """Return what passes a quiz; where skills are asked for, how long one passed before still counts."""
    if technique.knowledge:
        return {"months": technique.quiz_months}
    return {
        "need_right": technique.need_right,
        "asked": technique.asked,
        "plan": kept(technique.plan) if technique.plan else None,
        "months": technique.quiz_months,
        "safety_percent": technique.safety_percent,
        "waits": list(technique.waits),
    }


def _technique(rules: Mapping[str, Any], skills: Mapping[str, AskedSkill]) -> Technique:
    knowledge = tuple(skills[name] for name in rules.get("knowledge", ()))
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
        parts=tuple(
            ChecklistPart(id, id, tuple(points), 0) for id, points in rules["checklist"].get("parts", {}).items()
        ),
        scored_needed=0,
        sign_off_months=rules["sign_off_months"],
        sources=(),
        knowledge=knowledge,
        added={name: date.fromisoformat(since) for name, since in rules.get("added", {}).items()},
        **(_earlier_quiz(rules["quiz"], knowledge) if knowledge else _quiz(rules["quiz"])),
    )


def _edition(rules: Mapping[str, Any]) -> Edition:
    since, missed = date.fromisoformat(rules["since"]), tuple(rules.get("unless_missed", ()))
    return Edition(rules["number"], since, "", rules["sign_offs_hold"], missed)


def _checklist(rules: Mapping[str, Any]) -> tuple[Point, ...]:
    """Return the points, the critical ones first: no clearance asks in which sequence a page has them."""
    names = (*rules["critical"], *rules["scored"])
    return tuple(Point(name, name, name in rules["critical"], "ticked", None) for name in names)


def _earlier_quiz(rules: Mapping[str, Any], knowledge: Sequence[AskedSkill]) -> dict[str, Any]:
    """Return the fields of a technique that asks for skills: their questions, and how long an earlier quiz counts."""
    return {
        "questions": tuple(skill.setting for skill in knowledge),
        "need_right": 0,
        "quiz_months": rules["months"],
    }


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
