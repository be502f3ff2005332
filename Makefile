# Targets: demo, test, bench, relevance, clean. Stamp files keep repeated runs short.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMPS := $(VENV)/stamps

.PHONY: demo test bench relevance clean lint types js pytest
.DELETE_ON_ERROR:

demo: $(STAMPS)/installed
	$(BIN)/kbgen build
	@echo "Open site/index.html in a browser (no server and no network needed)."

test: lint types js pytest

lint: $(STAMPS)/tests
	$(BIN)/ruff check kbgen tests

types: $(STAMPS)/tests
	$(BIN)/mypy

js: $(STAMPS)/programs
	node --test tests/js/

pytest: $(STAMPS)/tests $(STAMPS)/node
	$(BIN)/pytest

bench: $(STAMPS)/tests
	$(BIN)/python -m tests.benchmarks.check_speed
	$(BIN)/python -m tests.benchmarks.build_speed

relevance: $(STAMPS)/tests $(STAMPS)/node
	$(BIN)/python -m tests.relevance --worth

clean:
	rm -rf $(VENV) tests/node_modules site

$(BIN)/python:
	$(PYTHON) -m venv $(VENV)

$(STAMPS)/installed: pyproject.toml | $(BIN)/python
	$(BIN)/python -m pip install --quiet -e .
	@mkdir -p $(STAMPS) && touch $@

$(STAMPS)/tests: pyproject.toml tests/relevance/requirements.txt | $(BIN)/python
	$(BIN)/python -m pip install --quiet -e '.[test]'
	$(BIN)/python -m pip install --quiet --no-deps -r tests/relevance/requirements.txt
	@mkdir -p $(STAMPS) && touch $@ $(STAMPS)/installed

$(STAMPS)/programs: | $(BIN)/python
	tests/install-programs
	@mkdir -p $(STAMPS) && touch $@

$(STAMPS)/node: tests/package-lock.json tests/package.json $(STAMPS)/programs
	npm ci --prefix tests --ignore-scripts --no-audit --no-fund
	@touch $@
