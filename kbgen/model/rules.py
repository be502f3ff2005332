"""The rules that the decoder can raise: keys and values that do not fit the format."""

from kbgen.diagnostics import Example, Rule, Severity

_BELT = "conveyors/belt-slips.yaml"

UNKNOWN_KEY = Rule(
    code="KB104",
    name="unknown-key",
    severity=Severity.ERROR,
    summary="A key is not part of the format here.",
    rationale="A misspelt key would be passed over, and with it the hazard, the limit or the tool that it holds.",
    remedy="Take the spelling that is proposed, or remove the key.",
    example=Example(_BELT, good="    takes: 10 min", bad="    takse: 10 min"),
)

MISSING_KEY = Rule(
    code="KB105",
    name="missing-key",
    severity=Severity.ERROR,
    summary="Something that must be said is left out.",
    rationale=(
        "A technician cannot tell “not needed” from “forgotten”. Therefore nothing is left out: what is not needed is "
        "written as none."
    ),
    remedy="Add the key. Where the format allows it and nothing is needed, write none.",
    example=Example(_BELT, good="  permissions: none\n", bad=""),
)

WRONG_SHAPE = Rule(
    code="KB106",
    name="wrong-shape",
    severity=Severity.ERROR,
    summary="A list stands where a single value belongs, or the other way round.",
    rationale="The reader would have to guess what was meant, and a guess has no place in a safety instruction.",
    remedy="Write a list with a hyphen before each entry, a group with indented keys, a single value on one line.",
    example=Example(_BELT, good="    also: [drum turns, belt stands]", bad="    also: drum turns, belt stands"),
)

UNFIT_VALUE = Rule(
    code="KB107",
    name="unfit-value",
    severity=Severity.ERROR,
    summary="A value is not of the kind that the key takes.",
    rationale="A time without a unit or a state that does not exist cannot be shown, added up or checked.",
    remedy="Write the value in the form that the message names.",
    example=Example(_BELT, good="    takes: 10 min", bad="    takes: ten minutes"),
)

UNKNOWN_FORMAT = Rule(
    code="KB108",
    name="unknown-format",
    severity=Severity.ERROR,
    summary="The file is written in a version of the format that this kbgen does not read.",
    rationale="A word may have another meaning in another version; reading on would be a guess.",
    remedy="Older files are moved to the present version by kbgen upgrade; for newer files, install a newer kbgen.",
    example=Example(_BELT, good="kbgen: 1\n", bad="kbgen: 99\n"),
)

DECODING_RULES = (UNKNOWN_KEY, MISSING_KEY, WRONG_SHAPE, UNFIT_VALUE, UNKNOWN_FORMAT)
