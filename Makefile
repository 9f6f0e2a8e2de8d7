PY ?= python3
BIN = .venv/bin

.PHONY: setup run test lint bench fuzz lock

setup: .venv/.ready

.venv/.ready: requirements.lock pyproject.toml
	@$(PY) -c "import sys; sys.exit(None if sys.version_info >= (3, 11) else 'Python 3.11 or newer is needed: make PY=/path/to/python3.11')"
	$(PY) -m venv .venv
	$(BIN)/pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	$(BIN)/pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	touch $@

run: setup
	$(BIN)/wallseat serve --demo

lint: setup
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports

test: lint
	$(BIN)/python tests/find_chromium.py
	$(BIN)/python tests/postgres.py
	$(BIN)/python -m pytest -n 2 --database both

bench: setup
	$(BIN)/python -m tests.bench

fuzz: setup
	$(BIN)/pip install --quiet --disable-pip-version-check atheris
	@for target in quantity job sheet picture stations; do $(BIN)/python -m tests.fuzz $$target -max_total_time=60 || exit 1; done

lock: setup
	$(BIN)/pip install --quiet --disable-pip-version-check uv
	$(BIN)/uv pip compile pyproject.toml --extra test --universal --python-version 3.11 --generate-hashes \
	  --no-emit-index-url --no-emit-find-links --no-header --upgrade --output-file requirements.lock
