"""What `content check` prints of skills: luck and chances of each, what a technique and a station come to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from math import prod

from trainer.kitchen.quiz.skill_figures import COUNTED_TO, SkillFigures
from trainer.kitchen.skills.bounds import row_of
from trainer.kitchen.skills.chances import lengths, pass_chance
from trainer.kitchen.skills.days_to_ready import ANSWERS_A_DAY, days_to_ready
from trainer.kitchen.technique import AskedSkill, Content, Station, Technique

SHARES = (Fraction(1, 4), Fraction(3, 5), Fraction(4, 5), Fraction(97, 100))
"""Right answers, of which the chances to pass are printed."""
READY = (0.97, 0.90, 0.75)
KNOWS = 0.97
PLAIN = 10
RARE = Fraction(1, 1_000_000)

Figures = Mapping[str, SkillFigures]


def skill_records(content: Content | None, figures: Figures) -> list[dict[str, object]]:
    """Return each skill that a technique asks for, and each that none does, by the keys that scripts know it by."""
    if content is None:
        return []
    asked = [(each.id, skill) for each in content.techniques.values() for skill in each.knowledge]
    unused = content.skills.keys() - {skill.id for _, skill in asked}
    return [
        {
            "technique": technique,
            "skill": skill.id,
            "family": skill.setting.family,
            "safety": skill.is_safety,
            "luck": str(skill.luck),
            "base": skill.base,
            "stems": figures[skill.id].questions if skill.id in figures else 0,
        }
        for technique, skill in [*asked, *(("", content.skills[id]) for id in sorted(unused))]
    ]


def skill_lines(content: Content | None, figures: Figures) -> Iterator[str]:
    """Yield a line for each skill, each technique that asks for some, and each station of such techniques."""
    if content is None or not content.skills:
        return
    yield "Skills, with how many of 100 pass at first/within three rounds who are right 25, 60, 80, 97 times in 100"
    for id, skill in content.skills.items():
        yield _skill_line(skill, figures.get(id))
    asking = [each for each in content.techniques.values() if each.knowledge]
    yield from (_technique_line(technique) for technique in asking)
    for station in content.stations.values():
        found = [content.techniques[id] for id in station.techniques if content.techniques[id].knowledge]
        if found:
            yield _station_line(station, found)


def _skill_line(skill: AskedSkill, found: SkillFigures | None) -> str:
    about = ", safety" if skill.is_safety else ""
    chances = ", ".join(
        f"{_percent(pass_chance(skill.base, share, 1))}/{_percent(pass_chance(skill.base, share))}" for share in SHARES
    )
    many = f"; {_many(found)}" if found else ""
    return (
        f"{skill.id} ({skill.setting.family}{about}): luck {_luck(skill.luck)}, {skill.base} in a row [{chances}]{many}"
    )


def _luck(luck: Fraction) -> str:
    """Return the luck of one form as it is, and the mean of a bank in hundredths."""
    return str(luck) if luck.denominator <= PLAIN else f"{float(luck):.2f}"


def _many(found: SkillFigures) -> str:
    """Return how many different questions there are, and the share of the commonest answer."""
    count = f"{COUNTED_TO} questions and more" if found.questions >= COUNTED_TO else f"{found.questions} questions"
    what = f"{found.questions} stems" if found.has_stems else count
    return f"{what}, one answer in {round(found.share * 100)} of 100"


def _technique_line(technique: Technique) -> str:
    """Return what a technique comes to for a cook who is right 97 times in 100, and for one who guesses."""
    skills = technique.knowledge
    median, most = _lengths(tuple(sorted(skill.base for skill in skills)))
    guessed = prod((pass_chance(skill.base, skill.luck) for skill in skills), start=Fraction(1))
    return (
        f"{technique.id}: {len(skills)} skills, {row_of(skills)} right in a row in all; a cook right 97 times in 100 "
        f"answers {median} questions, nine of ten cooks {most} or fewer; guessing passes {_times(guessed)}"
    )


@lru_cache(maxsize=256)
def _lengths(bases: tuple[int, ...]) -> tuple[int, int]:
    return lengths(bases, KNOWS, cooks=2000)


def _station_line(station: Station, techniques: Iterable[Technique]) -> str:
    """Return what a station comes to."""
    asked = tuple(tuple((skill.id, skill.base) for skill in technique.knowledge) for technique in techniques)
    count = len({id for skills in asked for id, _ in skills})
    days = ", ".join(f"{days_to_ready(asked, share).median}" for share in READY)
    shares = ", ".join(f"{round(share * 100)}" for share in READY)
    return (
        f"station {station.id}: {count} skills in {len(asked)} techniques, {count / len(asked):.1f} a technique; "
        f"ready after {days} days for a cook right {shares} times in 100, {ANSWERS_A_DAY} answers a day"
    )


def _percent(chance: Fraction) -> str:
    """Return a chance in percent, with one decimal below one and above 99."""
    value = float(chance * 100)
    return f"{value:.1f}" if value < 1 or 99 < value < 99.95 else f"{value:.0f}"


def _times(chance: Fraction) -> str:
    """Return a small chance as one time in so many."""
    if chance < RARE:
        return f"less than 1 time in {round(1 / RARE):,}"
    return f"1 time in {round(1 / chance):,}"
