"""The paths that a page of PDF paints, read operator by operator (ISO 32000-1, 8.5), with their layer and plate."""

from __future__ import annotations

import io
from typing import Any, Final

from panelart.readback.loops import Loop, cubic, points

MM: Final = 25.4 / 72.0

Matrix = tuple[float, float, float, float, float, float]
_UPRIGHT: Final[Matrix] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

_FILLED: Final = frozenset({"f", "F", "f*", "B", "B*", "b", "b*"})
_LINED: Final = frozenset({"S", "s", "B", "B*", "b", "b*"})
_FOLDED: Final = frozenset({"s", "b", "b*"})


def pdf_loops(data: bytes) -> list[Loop]:
    """Everything painted on the first page, in mm from its lower left. Raises what the library does for no PDF."""
    import pikepdf

    with pikepdf.open(io.BytesIO(data)) as file:
        page = file.pages[0]
        walk = _Walk(page)
        for one in pikepdf.parse_content_stream(page):
            walk.step(str(one.operator), list(one.operands))
        return walk.found


def pdf_pages(data: bytes) -> list[tuple[float, float]]:
    """Width and height of every page, mm. Raises what the library raises for no PDF."""
    import pikepdf

    with pikepdf.open(io.BytesIO(data)) as file:
        boxes = [[float(value) for value in page.mediabox] for page in file.pages]
    return [((right - left) * MM, (top - bottom) * MM) for left, bottom, right, top in boxes]


class _Walk:
    """The state of a page as it is painted."""

    def __init__(self, page: Any) -> None:
        self.found: list[Loop] = []
        self._resources = page.Resources
        self._layers: list[str] = []
        self._state: dict[str, Any] = {"matrix": _UPRIGHT, "w": 1.0, "cs": "", "CS": ""}
        self._kept: list[dict[str, Any]] = []
        self._open: list[list[complex]] = []
        self._group = 0

    def step(self, name: str, operands: list[Any]) -> None:
        """Take one operator."""
        if name in ("m", "l", "c", "h", "re"):
            self._draw(name, [float(value) for value in operands])
        elif name in _FILLED | _LINED | {"n"}:
            self._paint(name)
        elif name in ("BDC", "BMC", "EMC"):
            self._mark(name, operands)
        else:
            self._set(name, operands)

    def _set(self, name: str, operands: list[Any]) -> None:
        if name == "q":
            self._kept.append(dict(self._state))
        elif name == "Q":
            self._state = self._kept.pop()
        elif name == "cm":
            self._state["matrix"] = _times(tuple(float(value) for value in operands), self._state["matrix"])
        elif name == "w":
            self._state["w"] = float(operands[0])
        elif name in ("cs", "CS"):
            self._state[name] = self._plate(str(operands[0]))
        elif name in ("rg", "g", "k"):
            self._state["cs"] = ""
        elif name in ("RG", "G", "K"):
            self._state["CS"] = ""

    def _mark(self, name: str, operands: list[Any]) -> None:
        if name == "EMC":
            self._layers.pop()
        elif name == "BDC" and str(operands[0]) == "/OC":
            self._layers.append(str(self._resources.Properties[str(operands[1])].Name))
        else:
            self._layers.append("")

    def _plate(self, name: str) -> str:
        spaces = self._resources.get("/ColorSpace", {})
        space = spaces.get(name) if name in spaces else None
        if space is None or str(space[0]) != "/Separation":
            return ""
        return str(space[1]).removeprefix("/")

    def _draw(self, name: str, o: list[float]) -> None:
        if name == "m":
            self._open.append([self._at(*o)])
        elif name == "l":
            self._open[-1].append(self._at(*o))
        elif name == "c":
            a, b, c, d = self._open[-1][-1], self._at(*o[:2]), self._at(*o[2:4]), self._at(*o[4:])
            self._open[-1] += cubic(a, b, c, d)
        elif name == "h":
            self._open[-1].append(self._open[-1][0])
        else:
            x, y, wide, high = o
            corners = [self._at(*at) for at in ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))]
            self._open.append([*corners, corners[0]])

    def _paint(self, name: str) -> None:
        self._group += 1
        if name in _FOLDED:
            for along in self._open:
                along.append(along[0])
        a, b = self._state["matrix"][:2]
        width = self._state["w"] * abs(complex(a, b)) * MM
        layer = next((layer for layer in reversed(self._layers) if layer), "")
        for along in self._open:
            if name in _FILLED:
                plate = self._state["cs"]
                self.found.append(Loop(points=points(along), layer=layer, plate=plate, group=self._group))
            if name in _LINED:
                plate = self._state["CS"]
                loop = Loop(points=points(along), layer=layer, plate=plate, width=width, group=self._group)
                self.found.append(loop)
        self._open = []

    def _at(self, x: float, y: float) -> complex:
        a, b, c, d, e, f = self._state["matrix"]
        return complex((a * x + c * y + e) * MM, (b * x + d * y + f) * MM)


def _times(first: tuple[float, ...], then: Matrix) -> Matrix:
    """One map after another, as `cm` joins them."""
    a, b, c, d, e, f = first
    p, q, r, s, t, u = then
    return (
        a * p + b * r,
        a * q + b * s,
        c * p + d * r,
        c * q + d * s,
        e * p + f * r + t,
        e * q + f * s + u,
    )
