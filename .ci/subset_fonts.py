"""Makes the faces of the pages when the program is built or installed: the whole fonts of two packages, subset.

Tape is written in capitals alone, so its face comes without small letters; no face carries hints for coarse screens
or glyph names. Together they weigh 51 KiB as WOFF2, where the whole fonts weigh 98 gzipped.
"""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from typing import Any

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from hatchling.builders.hooks.plugin.interface import BuildHookInterface

FACES = {
    "text": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Regular.ttf"),
    "bold": ("fontpkg_atkinson_hyperlegible", "AtkinsonHyperlegible-Bold.ttf"),
    "tape": ("fontpkg_permanent_marker", "PermanentMarker-Regular.ttf"),
}
CAPITALS_ALONE = {"tape"}


class SubsetFonts(BuildHookInterface):
    """Writes the faces and their licences beside the style sheet, and has them packed though no commit holds them."""

    PLUGIN_NAME = "subset_fonts"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Write every face anew."""
        del version
        folder = Path(self.root, "trainer", "web", "static", "fonts")
        folder.mkdir(exist_ok=True)
        for name, (package, file) in FACES.items():
            found = resources.files(package)
            (folder / f"{package}-LICENSE.txt").write_bytes(found.joinpath("LICENSE").read_bytes())
            with resources.as_file(found.joinpath("files", file)) as whole:
                subset(whole, folder / f"{name}.woff2", capitals_alone=name in CAPITALS_ALONE)
        build_data["artifacts"].append("/trainer/web/static/fonts/")


def subset(whole: Path, into: Path, *, capitals_alone: bool) -> None:
    """Write a font without hints and glyph names, and without every letter that has a capital where asked."""
    options = Options(hinting=False, glyph_names=False, layout_features=[] if capitals_alone else ["*"])
    options.drop_tables += ["DSIG"]
    font = TTFont(whole)
    letters = font.getBestCmap()
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[c for c in letters if not capitals_alone or chr(c).upper()[0] == chr(c)])
    subsetter.subset(font)
    font.flavor = "woff2"
    font.save(into)
