"""The twelve invented lists, and each as a draft."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from panelart.checks.limits import standard
from panelart.drafting.arrange import Request, _framed
from panelart.drafting.draft import Heading, drafts
from panelart.drafting.measure import measured
from panelart.drafting.sizes import size_wish
from panelart.drafting.spacing import Spacing
from panelart.drafting.tried import Tried, tried
from panelart.lists.listed import ComponentList
from panelart.lists.matching import Matcher
from panelart.lists.read import read_list

FOLDER = Path(__file__).parent / "lists"
LISTS = sorted(FOLDER.iterdir())
SIZES = {"12-test-rack": "4U"}
SIDES = {"07-rear": "rear"}
MATCHER = Matcher()


@dataclass(frozen=True, kw_only=True)
class Case:
    """A list, its draft built, and the parts as they were measured."""

    listed: ComponentList
    tried: Tried
    remarks: tuple[str, ...]

    @property
    def panel(self):
        return self.tried.built.layout.panel

    def blocks(self):
        """The blocks in the order of the spec, and the zones of its frames."""
        found = measured(self.panel, [(part.ref,) for part in self.panel.parts])
        blocks = [found[part.ref] for part in self.panel.parts]
        return blocks, _framed(self.panel, blocks)

    @property
    def spacing(self) -> Spacing:
        return Spacing(limits=standard())


@cache
def case(name: str) -> Case:
    path = next(path for path in LISTS if path.stem == name)
    listed = read_list(path.read_bytes(), path.name, MATCHER)
    heading = Heading(title=name, side=SIDES.get(name, "front"))
    wish = size_wish(SIZES.get(name, "smallest"))
    remarks: list[str] = []

    def make(white: float):
        made = drafts(listed, heading, Request(wish=wish, white=white), FOLDER, MATCHER)
        remarks[:] = made[0].remarks
        return [one.arranged for one in made]

    found = tried(make, f"{name}.yaml", FOLDER)
    return Case(listed=listed, tried=found[0], remarks=tuple(remarks))
