# `make help` lists what there is to make.

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
MAKEFLAGS += --no-builtin-rules
.DEFAULT_GOAL := help
.NOTPARALLEL:

VENV := .venv
PYTHON := $(VENV)/bin/python
BASE_PYTHON ?= $(firstword $(shell command -v python3.11 python3))
# maturin builds for "extension module" and cargo for "program with Python inside"; in one folder each would undo the
# other's build of pyo3.
WHEEL_TARGET := target/wheel
MATURIN := $(PYTHON) -m maturin

WITHOUT_PYTHON := tests/without-python/Cargo.toml
FUZZ := fuzz/Cargo.toml
# Seconds that each fuzz target is run for.
FUZZ_SECONDS ?= 60
# A Rust test with Python inside must find libpython and the packages of .venv.
WITH_PYTHON = \
	LD_LIBRARY_PATH="$$($(PYTHON) -c 'import sysconfig; print(sysconfig.get_config_var("LIBDIR"))')$${LD_LIBRARY_PATH:+:$$LD_LIBRARY_PATH}" \
	PYTHONPATH="$(CURDIR)/python:$$($(PYTHON) -c 'import sysconfig; print(sysconfig.get_path("purelib"))')"
DEVELOP = $(MATURIN) develop --release --target-dir $(WHEEL_TARGET)
GENERATE_STUBS = $(MATURIN) generate-stubs --features stubs --target-dir $(WHEEL_TARGET) --out target/stubs

# The Python that pyo3 builds against and maturin installs into.
export VIRTUAL_ENV := $(CURDIR)/$(VENV)
export PYO3_PYTHON := $(CURDIR)/$(PYTHON)

.PHONY: help
help: ## Show this list
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 14

# ---- build

.PHONY: venv
venv: $(VENV)/ready ## Make .venv with all that development needs

REQUIREMENTS := import tomllib; \
	project = tomllib.load(open("pyproject.toml", "rb"))["project"]; \
	extras = project["optional-dependencies"]; \
	print(*project["dependencies"], *extras["test"], *extras["docs"], sep="\n")

$(VENV)/ready: pyproject.toml
	$(PYTHON) -c '' 2>/dev/null || $(BASE_PYTHON) -m venv --clear $(VENV)
	$(PYTHON) -c '$(REQUIREMENTS)' > $(VENV)/requirements.txt
	$(PYTHON) -m pip install --disable-pip-version-check --quiet --requirement $(VENV)/requirements.txt
	touch $@

# Installing takes seconds each time and is needed once: afterwards the library in python/raisedbody/ is only replaced.
.PHONY: develop
develop: $(VENV)/installed ## Build the package, optimised, and install it into .venv
	$(DEVELOP) --skip-install

$(VENV)/installed: $(VENV)/ready Cargo.toml
	$(DEVELOP)
	touch $@

.PHONY: wheel
wheel: venv ## Build the wheel into dist/
	rm -rf dist
	$(MATURIN) build --release --target-dir $(WHEEL_TARGET) --out dist

.PHONY: stubs
stubs: venv ## Write python/raisedbody/_core.pyi anew
	$(GENERATE_STUBS)
	cp target/stubs/raisedbody/_core.pyi python/raisedbody/_core.pyi

.PHONY: schema
schema: ## Write schema/plan.schema.json anew
	WRITE_SCHEMA=1 cargo test --test suite plan_schema

.PHONY: clean
clean: ## Remove everything that was built, .venv too
	rm -rf target tests/without-python/target dist out $(VENV) .pytest_cache .mypy_cache .ruff_cache
	rm -f python/raisedbody/*.so python/raisedbody/*.pyd
	find python tests benches docs examples -name __pycache__ -type d -prune -exec rm -rf {} +

# ---- use

.PHONY: demo
demo: develop ## Run examples/demo.py
	$(PYTHON) examples/demo.py

.PHONY: bench
bench: wheel develop ## Time the core, weigh the wheel, time the import
	cargo bench --bench '*'
	du --apparent-size --block-size=1K dist/*.whl | sed 's/\t/ KiB  /'
	$(PYTHON) benches/import_time.py
	$(PYTHON) benches/quotes.py
	RAYON_NUM_THREADS=1 $(PYTHON) benches/laps.py
	$(PYTHON) benches/laps.py
	$(PYTHON) benches/frames.py

.PHONY: format
format: venv ## Format Rust and Python
	cargo fmt
	cargo fmt --manifest-path $(WITHOUT_PYTHON)
	cargo fmt --manifest-path $(FUZZ)
	$(PYTHON) -m ruff check --fix .
	$(PYTHON) -m ruff format .

# ---- check

.PHONY: test
test: lint docs test-rust test-python test-release test-fuzz ## All checks and tests, as CI runs them

.PHONY: lint
lint: venv ## Formatting, lints and the layers of src/
	cargo fmt --check
	cargo fmt --check --manifest-path $(WITHOUT_PYTHON)
	cargo fmt --check --manifest-path $(FUZZ)
	$(PYTHON) -m ruff check .
	$(PYTHON) -m ruff format --check .
	@echo "only src/python/ may name pyo3 or numpy; only the line of that module in src/lib.rs its feature:"
	! grep -rniE 'pyo3|numpy' src --include='*.rs' | grep -v '^src/python/'
	test "$$(grep -rcF 'feature = "python"' src --include='*.rs' | grep -v ':0$$')" = src/lib.rs:1
	@echo "only src/python/interrupts.rs leaves Python for the core: ctrl-C and forked children are seen to there:"
	! grep -rn '\.detach(' src/python | grep -v '^src/python/interrupts.rs:'
	cargo clippy --all-targets -- -D warnings
	cargo clippy --all-targets --all-features -- -D warnings
	cargo clippy --no-deps --manifest-path $(WITHOUT_PYTHON) --target-dir target -- -D warnings
	cargo clippy --no-deps --locked --manifest-path $(FUZZ) --target-dir target -- -D warnings

.PHONY: docs
docs: develop ## The Rust documentation and the site in target/site, without a warning
	RUSTDOCFLAGS="-D warnings" cargo doc --no-deps --all-features
	rm -rf target/site target/doctrees
	$(PYTHON) -m sphinx --quiet --fail-on-warning --keep-going --jobs auto --conf-dir docs --doctree-dir target/doctrees . target/site
	$(PYTHON) docs/offline.py target/site

.PHONY: test-rust
test-rust: develop ## Rust tests without any Python, and that the library runs with it
	cargo test
	cargo run --manifest-path $(WITHOUT_PYTHON) --target-dir target
	! cargo tree --manifest-path $(WITHOUT_PYTHON) | grep -E 'pyo3|numpy'
	@echo "with Python inside the core is the same, as lint sees to; that such a program links and runs is left:"
	$(WITH_PYTHON) cargo test --all-features --lib

.PHONY: test-python
test-python: develop ## Stubs, types, Python tests and notebooks
	$(GENERATE_STUBS)
	diff -u python/raisedbody/_core.pyi target/stubs/raisedbody/_core.pyi || { echo "run: make stubs"; exit 1; }
	$(PYTHON) -m mypy.stubtest raisedbody
	$(PYTHON) -m mypy
	$(PYTHON) tests/python/typed_use.py
	$(PYTHON) -m pytest

.PHONY: test-release
test-release: develop ## Wheel, source archive and crate, built and used in clean places; licences
	$(PYTHON) -m pytest tests/release

.PHONY: test-fuzz
test-fuzz: venv ## Each fuzz target for some seconds
	if command -v "$${CXX:-c++}" >/dev/null; then $(PYTHON) fuzz/run.py --seconds 10 --afresh; \
	else echo "no C++ compiler: the fuzz targets are not run"; fi

.PHONY: fuzz
fuzz: venv ## Each fuzz target for FUZZ_SECONDS (60)
	$(PYTHON) fuzz/run.py --seconds $(FUZZ_SECONDS)

.PHONY: coverage
coverage: venv ## Lines that the Rust tests run, and public functions that none runs (needs cargo-tarpaulin)
	$(PYTHON) tests/coverage.py
