"""The reference tables of content/README.md, made from the declarations that read the files.

Renew them with: python -m tests.architecture.format_reference
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from trainer.content.declarations import Block, Key
from trainer.content.editor_schemas import FILES
from trainer.content.kinds import Kind

README = Path(__file__).parents[2] / "content" / "README.md"
BEGIN, END = "<!-- tables: made, not written -->", "<!-- end of the tables -->"


def reference() -> str:
    """Return every kind of file with its keys, a table for each block, a block that was shown only named."""
    shown: set[type[Block]] = set()
    parts = []
    for name, (title, kind) in FILES.items():
        parts.append(f"### {title}\nIts schema: `trainer content schema {name}`.")
        if not (kind.blocks and kind.blocks[0] in FILE_BLOCKS):
            parts[-1] += f" It is written {kind.written.replace('keys, below', 'these keys')}."
        parts.extend(table for block in kind.blocks for table in tables(block, shown))
    return "\n\n".join(parts)


FILE_BLOCKS = {block for _, kind in FILES.values() if kind.written == "keys, below" for block in kind.blocks}


def tables(block: type[Block], shown: set[type[Block]]) -> Iterator[str]:
    """Yield the table of a block and of every block below it that no table shows yet."""
    if block in shown:
        return
    shown.add(block)
    heading = (block.__doc__ or "").strip().rstrip(".")
    rows = [f"| `{name}` | {cell(each.kind)} | {needed(each)} | {each.help} |" for name, each in block.keys.items()]
    head = [f"**{heading}**", "", "| key | written as | needed | what it says |", "|---|---|---|---|"]
    yield "\n".join([*head, *rows])
    for each in block.keys.values():
        for inner in each.kind.blocks:
            yield from tables(inner, shown)


def cell(kind: Kind) -> str:
    """Return how a kind is written, with the blocks it is made of by name."""
    words = kind.written if len(kind.written) < 400 else "one of a list; the schema has it"
    names = "; or ".join((block.__doc__ or "").strip().rstrip(".").lower() for block in kind.blocks)
    return f"{words}: *{names}*" if names else words


def needed(key: Key) -> str:
    """Return whether a key must be there."""
    if key.when:
        return f"when `{key.when[0]}` is {' or '.join(key.when[1])}"
    if key.beside:
        return f"with {' or '.join(f'`{name}`' for name in key.beside)}"
    return "yes" if key.required else "no"


def renewed(text: str) -> str:
    """Return the text of the README with its tables made again."""
    before, _, rest = text.partition(BEGIN)
    return f"{before}{BEGIN}\n{reference()}\n{END}{rest.partition(END)[2]}"


if __name__ == "__main__":
    README.write_text(renewed(README.read_text(encoding="utf-8")), encoding="utf-8")
