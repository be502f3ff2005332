"""Files and oracles for the schema tests."""

import datetime
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from jsonschema import Draft202012Validator

from kbgen.model.decode import decode
from kbgen.model.procedure import Procedure
from kbgen.model.tables import Tables
from kbgen.schema.build import procedure_schema, tables_schema
from kbgen.source.read import read_text

ROOT = Path(__file__).parents[2]
FOLDERS = (ROOT / "kbgen" / "example", ROOT / "procedures")
TABLES = sorted(path for folder in FOLDERS for path in (folder / "tables").rglob("*.yaml"))
PROCEDURES = sorted(path for folder in FOLDERS for path in folder.rglob("*.yaml") if path not in TABLES)
DECODING = {"KB104", "KB105", "KB106", "KB107"}


@cache
def validator(record: type) -> Draft202012Validator:
    return Draft202012Validator(tables_schema() if record is Tables else procedure_schema())


def record_of(path: Path) -> type:
    return Tables if path in TABLES else Procedure


def load(text: str) -> Any:
    return plain(yaml.safe_load(text))


def plain(value: Any) -> Any:
    """Data as JSON knows it: dates and keys are text."""
    if isinstance(value, dict):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return value.isoformat() if isinstance(value, datetime.date) else value


def schema_accepts(record: type, text: str) -> bool:
    return validator(record).is_valid(load(text))


def decoder_accepts(record: type, text: str) -> bool:
    root = read_text("file.yaml", text).value
    assert root is not None
    return not DECODING & {one.rule.code for one in decode(record, root).found}
