"""Random charts shaped like repair procedures, the same for the same seed."""

from __future__ import annotations

from random import Random

from kbgen.draw.chart import Chart, Edge, Node, Shape, Stretch, Tone

_VERBS = ("Check", "Measure", "Open", "Close", "Clean", "Replace", "Tighten", "Look at", "Note")
_THINGS = (
    "the drain heater of the evaporator",
    "the suction pressure at the service valve",
    "terminal X1:4 against earth",
    "the belt tension on the infeed conveyor",
    "the fan",
    "the float switch and its cable",
    "the proximity sensor at the eject station",
    "the supply fuse",
    "the discharge temperature after 10 min",
)
_QUESTIONS = (
    "Is the coil iced?",
    "Is the voltage within 10 % of the nameplate value?",
    "Pressure below 2.4 bar?",
    "What does the display show after the restart?",
    "Does the motor turn freely by hand when the brake is lifted?",
    "Leak found?",
)
_ANSWERS = (
    "Yes", "No", "Below 2 bar", "Normal", "Not sure", "Above 4.5 mA and rising slowly",
    "Cracked", "No reading at all on either phase", "Falls to 0",
)  # fmt: skip
_STEPS = (
    Shape.PROCESS, Shape.PROCESS, Shape.PROCESS, Shape.PROCESS, Shape.MANUAL, Shape.INPUT,
    Shape.PREDEFINED, Shape.PREPARATION, Shape.DELAY,
)  # fmt: skip


def random_chart(seed: int, size: int, most_answers: int = 4) -> Chart:
    """A chart of `size` nodes: mostly one after another, with branches, joins and loops."""
    random = Random(seed)
    ends = max(1, min(size // 8, 5))
    steps = size - ends
    nodes = [Node("n0", Shape.TERMINATOR, "Evaporator does not cool", "#n0")]
    edges: list[Edge] = []
    for place in range(1, steps):
        asks = random.random() < 0.36
        nodes.append(_question(random, place) if asks else _step(random, place))
    nodes += [_end(random, place) for place in range(steps, size)]
    for place in range(steps):
        edges += _leaving(random, place, nodes, steps, most_answers)
    return Chart("Evaporator does not cool", "Fault finding", "n0", tuple(nodes), tuple(edges), f"c{seed}")


def _step(random: Random, place: int) -> Node:
    text = f"{random.choice(_VERBS)} {random.choice(_THINGS)}"
    if random.random() < 0.15:
        text += f" and {random.choice(_VERBS).lower()} {random.choice(_THINGS)}"
    stretch = random.choice((Stretch.UNSTATED, Stretch.UNSTATED, Stretch.LIVE, Stretch.SAFE))
    hazard = random.random() < 0.1
    shape = random.choice(_STEPS)
    return Node(f"n{place}", shape, text, f"#n{place}", str(place), stretch, hazard=hazard)


def _question(random: Random, place: int) -> Node:
    stretch = random.choice((Stretch.UNSTATED, Stretch.LIVE, Stretch.SAFE))
    text = random.choice(_QUESTIONS)
    return Node(f"n{place}", Shape.DECISION, text, f"#n{place}", str(place), stretch)


def _end(random: Random, place: int) -> Node:
    tone = random.choice(tuple(Tone))
    text = random.choice(("Repaired: back in service", "Hand over to the refrigeration engineer"))
    return Node(f"n{place}", Shape.TERMINATOR, text, f"#n{place}", str(place), tone=tone)


def _leaving(random: Random, place: int, nodes: list[Node], steps: int, most_answers: int) -> list[Edge]:
    source, following = f"n{place}", place + 1
    if nodes[place].shape is not Shape.DECISION:
        loop = random.random() < 0.03 and place > 2
        target = random.randint(1, place - 1) if loop and place < steps - 1 else following
        return [Edge(source, f"n{target}")]
    answers = random.sample(_ANSWERS, random.choice((2, 2, 2, 2, 3, 3, most_answers)))
    found = [Edge(source, f"n{following}", answers[0])]
    for answer in answers[1:]:
        found.append(Edge(source, f"n{_elsewhere(random, place, steps, len(nodes))}", answer))
    return found


def _elsewhere(random: Random, place: int, steps: int, size: int) -> int:
    """Mostly a little further on, sometimes an outcome, sometimes back."""
    draw = random.random()
    if draw < 0.25:
        return random.randint(steps, size - 1)
    if draw < 0.37 and place > 1:
        return random.randint(1, place - 1)
    return min(size - 1, place + random.randint(2, 6))
