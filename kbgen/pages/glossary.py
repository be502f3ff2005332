"""The words that every site has in common; a site's own terms are added to them."""

from __future__ import annotations

WORDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("acceptance limit", "The range in which a reading is as it should be, with the source it comes from.", ("limit",)),
    ("alarm", "A message of the machine that something has gone wrong; often the machine stops or does less.", ()),
    ("alarm stage", "A step in the course of an alarm, for example a warning that becomes a stop after a time.", ()),
    ("cause", "What is wrong in the machine, so that the symptom shows.", ()),
    (
        "electrically instructed person",
        "A person who was told by an electrically skilled person what to do and what the dangers are (EN "
        "50110-1).",
        ("EIP",),
    ),
    (
        "electrically skilled person",
        "A person with the training, knowledge and experience to judge electrical risks and avoid them (EN "
        "50110-1).",
        ("qualified person",),
    ),
    (
        "energy source",
        "Anything that can move, heat, shock or press: mains, a charged capacitor, compressed air, hydraulic "
        "pressure, a raised load, a spring, heat, chemicals.",
        (),
    ),
    (
        "escalate",
        "Hand the job to someone who can go further, with what was tried and what was read.",
        ("call for help",),
    ),
    ("hazard", "What can hurt, with its consequence and how to avoid it.", ("danger",)),
    (
        "isolation point",
        "The device at which an energy source is separated from the machine: switch-disconnector, plug, "
        "valve.",
        ("isolator",),
    ),
    (
        "lockout",
        "A lock and tag on the isolation point, put on and taken off by the person whose safety depends on "
        "it.",
        ("LOTO", "lock and tag"),
    ),
    (
        "outcome",
        "The end of a path through a procedure: fixed, a part to order, a call for help, or another "
        "procedure.",
        (),
    ),
    ("permission", "The word of the person who answers for the machine or area that the work may begin.", ("permit",)),
    ("reading", "A value that is measured and judged against limits.", ("measurement",)),
    (
        "return to service",
        "Putting everything back, taking off the locks, bringing energy back and showing that the machine "
        "works.",
        (),
    ),
    ("shared sequence", "Steps that are the same in many procedures, for example isolate and prove.", ()),
    (
        "signal word",
        "DANGER: will kill or injure seriously if not avoided. WARNING: could. CAUTION: could injure "
        "lightly. NOTICE: damage, not injury (after ANSI Z535.6).",
        (),
    ),
    ("spare part", "A part that takes the place of a broken one; it has a number and the equipment it fits.", ()),
    (
        "stored energy",
        "Energy that is still there after the supply is separated: charge, pressure, a raised load, a "
        "spring, heat.",
        ("residual energy",),
    ),
    ("supersession", "A part that took the place of an older one under another number.", ("replaced by",)),
    ("symptom", "What a person sees, hears, smells or feels.", ()),
    (
        "temporary change",
        "Something that is altered for a while, such as a bypass, a jumper or a removed guard. It is an open "
        "item until it is put back.",
        ("bypass",),
    ),
    ("unit", "A machine that stands on the site.", ()),
    ("variant", "A form of the equipment that is built differently, so that some steps differ.", ()),
    (
        "verification of absence of voltage",
        "A test at the place of work that no voltage is there. The tester is proved on a known source before "
        "and after.",
        ("prove dead",),
    ),
    ("warning", "A message that comes before an alarm, or a signal word.", ()),
)  # fmt: skip
