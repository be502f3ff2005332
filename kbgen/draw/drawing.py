"""A chart after layout: numbers only, in CSS pixels, origin at the top left, y downwards."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.draw.chart import Shape

Point = tuple[float, float]
Polyline = tuple[Point, ...]


@dataclass(frozen=True)
class Box:
    """An upright rectangle given by its top left corner and its size."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.y + self.height

    @property
    def centre(self) -> Point:
        """The point in the middle."""
        return (self.x + self.width / 2, self.y + self.height / 2)


@dataclass(frozen=True)
class Line:
    """A line of text set centred on `x` with its baseline at `y`; `width` is as measured."""

    text: str
    x: float
    y: float
    width: float


@dataclass(frozen=True)
class NodeBox:
    """A node in its place. `mark` is the top left corner of its first glyph; the node's number
    is set before its first line, whose width counts it in."""

    node: str
    shape: Shape
    box: Box
    lines: tuple[Line, ...]
    mark: Point


@dataclass(frozen=True)
class LabelBox:
    """The words of an answer; the line it belongs to stops above it and goes on below it."""

    box: Box
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class EdgeLine:
    """An edge as one or two legs: two where its label interrupts it. `back` marks a loop.

    `shared` is the rest of its way where it joins a line that another edge draws; it starts
    where the last leg ends and is empty for an edge that reaches its target alone.
    """

    source: str
    target: str
    legs: tuple[Polyline, ...]
    shared: Polyline
    back: bool
    label: LabelBox | None = None


@dataclass(frozen=True)
class Drawing:
    """Everything `svg` needs besides the chart. `gaps` are the heights at which a printed
    chart may be cut without cutting a node or a label."""

    width: float
    height: float
    nodes: tuple[NodeBox, ...]
    edges: tuple[EdgeLine, ...]
    gaps: tuple[float, ...]
