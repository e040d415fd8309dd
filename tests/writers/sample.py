"""A small invented panel that shows a writer all it has to write; its page is 3000 x 1500 pixels at 300 dpi."""

from __future__ import annotations

from panelart.drawing.representation import Drawing, Item, Layer, Paint, Step
from panelart.geometry import (
    Box,
    Contour,
    Line,
    Point,
    Transform,
    circle,
    d_hole,
    keyed_circle,
    rectangle,
    slot,
)
from panelart.lettering.outline import Cubic, Loop, open_shape, shape_of, transformed

WHITE = Paint(colour="#E9E9E4", plate="White base")
BLACK = Paint(colour="#141414", plate="Black")
RED = Paint(colour="#C8201A", plate="Signal red")
CUT = Paint(colour="#FF00FF", plate="Cut")
GHOST = Paint(colour="#3060A0", opacity=0.4)

BASE = rectangle(80, 40, Point(70, 60), corner=5)
RING = (circle(20, Point(70, 60)), circle(10, Point(70, 60)).reversed())
TURNED_SLOT = slot(30, 8, Point(150, 60)).turned(33, Point(150, 60))

OUTLINE = rectangle(240, 120, Point(120, 60), corner=3)
ROUND = circle(22.3, Point(30, 95))
KEYED = keyed_circle(12.4, 3.2, 13.5, at=Point(60.125, 95)).turned(17.5, Point(60.125, 95))
D_HOLE = d_hole(9.4, 8.2, at=Point(90, 95)).mirrored(91)
CUT_SLOT = slot(26, 7, Point(130, 95)).turned(71.3, Point(130, 95))
WINDOW = rectangle(44.7, 22.3, Point(190, 88), corner=1.5).turned(5, Point(190, 88))
CUTOUTS = (ROUND, KEYED, D_HOLE, CUT_SLOT, WINDOW)


def letter(at: Point) -> tuple[Loop, ...]:
    """An upright oval with an oval counter, of cubics, 6 mm high: an O as a font might draw it."""

    def oval(w: float, h: float, *, clockwise: bool) -> Loop:
        k = 0.55
        quarters = [(w, 0.0, w, h * k), (0.0, h, w * k, h), (-w, 0.0, -w, h * k), (0.0, -h, -w * k, -h)]
        points = [Point(x, y) for x, y, _, _ in quarters]
        curves = []
        for index, start in enumerate(points):
            end = points[(index + 1) % 4]
            flat = index % 2 == 0
            first = Point(start.x, end.y * k) if flat else Point(end.x * k, start.y)
            second = Point(start.x * k, end.y) if flat else Point(end.x, start.y * k)
            curves.append(Cubic(start, first, second, end))
        if clockwise:
            curves = [Cubic(c.end, c.second, c.first, c.start) for c in reversed(curves)]
        return Loop(tuple(curves))

    both = (oval(2.0, 3.0, clockwise=False), oval(1.3, 2.3, clockwise=True))
    return transformed(both, Transform.move(at.x, at.y))


def cutting(*contours: Contour) -> tuple[Item, ...]:
    return tuple(
        Item(shape=shape_of(contour), stroke=CUT, width=0.1, name=f"opening-{index}")
        for index, contour in enumerate(contours, start=1)
    )


def sample() -> Drawing:
    marks = tuple(
        Item(shape=open_shape((Line(Point(20 + 5 * step, 20), Point(20 + 5 * step, 24)),)), stroke=BLACK, width=0.35)
        for step in range(21)
    )
    legend = (
        Item(shape=shape_of(*RING), fill=BLACK, label="RING", name="ring"),
        Item(shape=letter(Point(100, 60)), fill=BLACK, label="O"),
        *marks,
    )
    return Drawing(
        title="Bench supply <front> & more",
        note="A front with a ring, a letter and a scale; Größe µ.",
        page=Box(-7, -3.5, 247, 123.5),
        trim=Box(0, 0, 240, 120),
        number="BS-210-01",
        revision="B",
        layers=(
            Layer(name="base", items=(Item(shape=shape_of(BASE), fill=WHITE),), step=Step.WHITE),
            Layer(name="legend-black", items=legend),
            Layer(name="legend-red", items=(Item(shape=shape_of(TURNED_SLOT), fill=RED, label="STOP Größe"),)),
            Layer(
                name="parts",
                items=(
                    Item(
                        shape=shape_of(circle(36, Point(205, 35))),
                        fill=GHOST,
                        stroke=GHOST,
                        width=0.8,
                        dash=(3, 1.5),
                    ),
                ),
            ),
            Layer(name="cutouts", items=cutting(*CUTOUTS), step=Step.CUTTING),
            Layer(
                name="outline",
                items=(Item(shape=shape_of(OUTLINE), stroke=CUT, width=0.1, name="outline"),),
                step=Step.CUTTING,
            ),
        ),
    )
