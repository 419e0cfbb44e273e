"""The documents tell the truth about commands, dependencies, floors and entries, and stay short."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import click
import pytest

from tests.architecture.format_reference import renewed
from trainer.cli import trainer
from trainer.content.declarations import Block
from trainer.content.editor_schemas import FILES
from trainer.content.limits import limit_text
from trainer.content.lines import TypedLine
from trainer.content.mapping_reader import MappingReader
from trainer.content.nodes import Diagnostics, MappingNode, ScalarNode
from trainer.content.question_words import shipped_words
from trainer.kitchen import entry_lines
from trainer.kitchen.book import Kind
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.keeping import answered, answered_before
from trainer.kitchen.quiz.telling import tell
from trainer.store.drafts import DraftKind
from trainer.web import entry_words

HOUSE = Path(__file__).parents[2]
README = (HOUSE / "README.md").read_text(encoding="utf-8")
CONTENT = (HOUSE / "content" / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (HOUSE / "DEVELOPERS.md").read_text(encoding="utf-8")
COMMAND_TABLE = (HOUSE / "trainer" / "cli" / "README.md").read_text(encoding="utf-8")
STORE = (HOUSE / "trainer" / "store" / "README.md").read_text(encoding="utf-8")
DOCUMENTS = sorted([*HOUSE.glob("*.md"), HOUSE / "content" / "README.md", *(HOUSE / "trainer").rglob("*.md")])
FILE_NAMES = {path.name for folder in ("trainer", "tests") for path in (HOUSE / folder).rglob("*.py")}
FIRST_COMMANDS = ("trainer new", "trainer roster", "trainer serve", "trainer backup", "trainer content check")


def blocks() -> list[type[Block]]:
    """Return every block of the format, each once."""
    found = [block for _, kind in FILES.values() for block in kind.blocks]
    for block in found:
        found += [inner for each in block.keys.values() for inner in each.kind.blocks if inner not in found]
    return list(dict.fromkeys(found))


def every_command(group: click.Group, before: str) -> Iterator[tuple[str, click.Command]]:
    """Yield each command with its whole name."""
    ctx = click.Context(group)
    for name in group.list_commands(ctx):
        command = group.get_command(ctx, name)
        assert command is not None, name
        if isinstance(command, click.Group):
            yield from every_command(command, f"{before} {name}")
        if not isinstance(command, click.Group) or command.invoke_without_command:
            yield f"{before} {name}", command


COMMANDS = dict(every_command(trainer, "trainer"))


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_is_named(name: str) -> None:
    """trainer/cli/README.md has a row for each: a command nobody can read of does not exist."""
    assert f"| `{name}` |" in COMMAND_TABLE


@pytest.mark.parametrize("name", FIRST_COMMANDS)
def test_the_readme_names_what_a_kitchen_needs_first(name: str) -> None:
    """Whoever makes a kitchen of their own needs no other document."""
    assert name in COMMANDS
    assert f"`{name}" in README


def test_no_command_is_named_that_is_not_there() -> None:
    """Each `trainer ...` in a document is a command, or a group of them."""
    named = {words for path in DOCUMENTS for words in re.findall(r"`trainer ([a-z][a-z -]*)", path.read_text("utf-8"))}
    known = [name.removeprefix("trainer ") for name in COMMANDS]
    assert [words for words in named if not any(f"{words.strip()} ".startswith(f"{name} ") for name in known)] == []


def test_the_documents_are_short() -> None:
    """README has 900 words at the most, as `wc -w` counts them; DEVELOPERS.md 14 KiB."""
    assert len(README.split()) <= 900
    assert len(DEVELOPERS.encode()) <= 14 * 1024


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda path: path.relative_to(HOUSE).as_posix())
def test_what_a_document_points_to_is_there(path: Path) -> None:
    """Every link, and every file named: by its path from the house or from trainer/, or by its bare name."""
    text = path.read_text(encoding="utf-8")
    linked = [path.parent / goal for goal in re.findall(r"\]\(([^)#:]+)\)", text)]
    assert [goal for goal in linked if not goal.exists()] == []
    named = set(re.findall(r"`((?:[\w.]+/)*[\w.]+\.(?:py|html|js))`", text))
    assert [name for name in sorted(named) if not _is_in_the_house(path, name)] == []


def _is_in_the_house(document: Path, name: str) -> bool:
    places = (HOUSE, HOUSE / "trainer", document.parent)
    return any((place / name).exists() for place in places) or ("/" not in name and name in FILE_NAMES)


def test_the_licence_stands_where_it_is_looked_for() -> None:
    """MIT by its SPDX name (PEP 639), with its text in the package; README names it and the fonts' own."""
    project = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["license"] == "MIT"
    (file,) = project["license-files"]
    assert "Permission is hereby granted, free of charge" in (HOUSE / file).read_text(encoding="utf-8")
    licence = README.partition("## Licence")[2]
    assert all(each in licence for each in ("MIT", file, "SIL Open Font License 1.1", "Apache License 2.0"))


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_of_a_command_shows_an_example(name: str) -> None:
    """Help starts with what the command does and an example that can be typed."""
    shown = " ".join((COMMANDS[name].help or "").replace(" --kitchen our-kitchen", "").split())
    assert f"Example: {name}" in shown


@pytest.mark.parametrize("heading", ["Run it", "Test it"])
def test_the_two_lines_of_the_readme_stand_alone(heading: str) -> None:
    """Each of the two headings is followed by a shell block of exactly one line."""
    found = re.search(rf"^## {heading}\b.*?^```\w*\n(.*?)^```", README, re.S | re.M)
    assert found
    assert len(found.group(1).strip().splitlines()) == 1


def dependencies() -> set[str]:
    """Return the name of each dependency in pyproject.toml."""
    project = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["dev"]]
    return {re.split(r"[>=;<\[ ]", line, maxsplit=1)[0] for line in wanted}


def test_every_dependency_is_named_with_its_reason() -> None:
    """DEVELOPERS.md has a row for each dependency in pyproject.toml."""
    assert not {name for name in dependencies() if f"| `{name}` |" not in DEVELOPERS}


def pins() -> list[str]:
    """Return the lines of the pinned versions that pin something."""
    lines = (HOUSE / ".ci" / "pins.txt").read_text(encoding="utf-8").splitlines()
    return [line for line in lines if line.strip() and not line.lstrip().startswith("#")]


def test_every_dependency_is_pinned_to_one_version() -> None:
    """Each line names one exact version, perhaps for some machines only; nothing that is asked for is left open."""
    assert [line for line in pins() if not re.fullmatch(r"[a-z0-9.-]+==[0-9][\w.]*( ; .+)?", line)] == []
    pinned = {line.partition("==")[0] for line in pins()}
    assert {re.sub(r"[-_.]+", "-", name).lower() for name in dependencies()} - pinned == set()


def test_the_pins_name_no_place() -> None:
    """No host and no path of a machine: they hold wherever packages are taken from."""
    text = (HOUSE / ".ci" / "pins.txt").read_text(encoding="utf-8")
    assert re.findall(r"\w+://\S*|(?<![\w.])/\w\S*|--(?:extra-)?index-url|--find-links", text) == []


@pytest.mark.parametrize("heading", ["Run it", "Test it"])
def test_the_two_lines_of_the_readme_install_what_is_pinned(heading: str) -> None:
    """A release of anything, made today, changes nothing for anyone who types the line."""
    found = re.search(rf"^## {heading}\b.*?^```\w*\n(.*?)^```", README, re.S | re.M)
    assert found
    assert "pip install -q -c .ci/pins.txt " in found.group(1)


def test_what_builds_the_program_is_pinned() -> None:
    """The build's own requirements are outside the reach of the pins, so they name one version themselves."""
    build = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))["build-system"]
    assert all(re.fullmatch(r"[a-z0-9-]+==[0-9.]+", each) for each in build["requires"])


def test_every_floor_is_described() -> None:
    """DEVELOPERS.md has a row for each package below trainer/."""
    floors = {path.parent.name for path in (HOUSE / "trainer").glob("*/__init__.py")}
    assert not {floor for floor in floors if f"| `trainer/{floor}/` |" not in DEVELOPERS}


def test_every_kind_of_entry_is_described() -> None:
    """trainer/store/README.md has a row for each kind in the book, and so for each kind of draft."""
    rows = " ".join(re.findall(r"^\| (`\w+`(?:, `\w+`)*) \|", STORE, re.M))
    assert not {kind for kind in (*get_args(Kind), *get_args(DraftKind)) if f"`{kind}`" not in rows}


def test_what_is_kept_of_a_question_is_described() -> None:
    """trainer/store/README.md names each field of a question in a draft and in the book, older ones' too."""
    drawn = draw_question("scale_by_yield", 1, QuestionContext(shipped_words("en")))
    question = tell(drawn, QuestionContext(shipped_words("en")))
    graded = grade(question, "1")
    kept = {*drawn.kept(), *answered(drawn, question, "1", graded), *answered_before(question, "1", graded)}
    told = STORE.partition("**A question of `quiz_sat`**")[2].partition("\n\n")[0]
    assert not {name for name in kept if f"`{name}`" not in told}


def test_the_reference_tables_are_those_of_the_format() -> None:
    """What chefs read of each key is what reads the files; both come from one declaration."""
    assert renewed(CONTENT) == CONTENT, "Renew the tables: .venv/bin/python -m tests.architecture.format_reference"


@pytest.mark.parametrize("block", blocks(), ids=lambda block: block.__name__)
def test_every_key_says_what_it_is(block: type[Block]) -> None:
    """A key without a sentence helps nobody; an id explains itself."""
    assert [name for name, each in block.keys.items() if not each.help and name != "id"] == []


def lines_in_the_document() -> list[tuple[str, str, str]]:
    """Return the rows of content/README.md that show how a measured line reads: as typed, in English, in Spanish."""
    table = re.search(r"^\| a line with \|.*?\n\n", CONTENT, re.S | re.M)
    assert table
    rows = [[cell.strip() for cell in row.split("|")[1:-1]] for row in table.group().strip().splitlines()[2:]]
    return [(typed.strip("`"), english, spanish) for typed, english, spanish in rows]


@pytest.mark.parametrize(("typed", "english", "spanish"), lines_in_the_document())
def test_a_line_reads_as_the_document_says(typed: str, english: str, spanish: str) -> None:
    """Anyone who writes a sentence around a brace can rely on the table."""
    diagnostics = Diagnostics("", [])
    pairs = [*re.findall(r"(\w+): ([^,]+)", typed), ("source", "house")]
    node = MappingNode(1, tuple((ScalarNode(1, key), ScalarNode(1, value)) for key, value in pairs))
    line = TypedLine.read(node, "line", MappingReader(diagnostics, 1, "", {"sources": {"house"}})).limit()
    assert line is not None, diagnostics.problems
    assert limit_text(line) == english
    assert limit_text(line, language="es") == spanish


def test_every_kind_of_entry_is_read_and_has_words() -> None:
    """A kind is folded into a cook's record (a void apart), named on pages, and told in words."""
    kinds = set(get_args(Kind))
    assert kinds - set(entry_lines._MAKE) == {"entry_voided"}
    assert kinds == set(entry_words.KIND_WORDS) == set(entry_words._LINES)
