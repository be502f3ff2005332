"""Load all YAML files below a folder with PyYAML's fast loader and do nothing else with them.

python tests/benchmarks/plain_load.py FOLDER
"""

import sys
from pathlib import Path

import yaml

for path in sorted(Path(sys.argv[1]).rglob("*.yaml")):
    yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader)
