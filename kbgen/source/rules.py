"""The rules that reading a file can raise: what must hold before the words in it mean anything."""

from kbgen.diagnostics import Example, Rule, Severity

UNREADABLE_FILE = Rule(
    code="KB101",
    name="unreadable-file",
    severity=Severity.ERROR,
    summary="The file cannot be read safely.",
    rationale=(
        "Procedures may come from anyone. A file that is not UTF-8 text, is larger than 1 MB, is nested deeper than 40 "
        "levels, repeats itself through many aliases or carries YAML tags is refused before anything in it is believed."
    ),
    remedy="Save the file as UTF-8 text, write plain values without tags, and split a very large file.",
    example=Example(
        file="conveyors/belt-slips.yaml",
        good="title: Belt slips on its drive drum",
        bad="title: !!python/name:os.system Belt slips on its drive drum",
    ),
)

BROKEN_YAML = Rule(
    code="KB102",
    name="broken-yaml",
    severity=Severity.ERROR,
    summary="The text is not valid YAML.",
    rationale="Until the layout of the file is right, nobody can say which step or which limit a line belongs to.",
    remedy="Check the indentation, put text with a colon or a leading special character in quotes, close every quote.",
    example=Example(
        file="conveyors/belt-slips.yaml",
        good="title: Belt slips on its drive drum",
        bad='title: "Belt slips on its drive drum',
    ),
)

DUPLICATE_KEY = Rule(
    code="KB103",
    name="duplicate-key",
    severity=Severity.ERROR,
    summary="A key stands twice in the same group.",
    rationale=(
        "Many YAML readers silently keep the last of two equal keys. If one of them is a limit or a hazard, the reader "
        "of the file and the technician at the machine would see different things."
    ),
    remedy="Keep one of the two and remove the other.",
    example=Example(
        file="conveyors/belt-slips.yaml",
        good="title: Belt slips on its drive drum",
        bad="title: Belt slips on its drive drum\ntitle: Belt runs off to one side",
    ),
)

READING_RULES = (UNREADABLE_FILE, BROKEN_YAML, DUPLICATE_KEY)
