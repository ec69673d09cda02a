# Two commands do everything: `make demo` runs the main job, `make test` passes the tests.
VENV ?= .venv
PY := $(VENV)/bin/python
EXAMPLE ?= examples/fair-bag.toml
PUBLISHED ?= published/fair-bag

.PHONY: help demo test lint bench soak setup clean

help:
	@echo "make demo    set up, then publish the example project and say where the guide is"
	@echo "make test    set up, then run the tests"
	@echo "make lint    check style and types"
	@echo "make bench   measure speed"
	@echo "make soak    the long tests"
	@echo "make clean   remove what was set up and published here"

setup: $(VENV)/ready

$(VENV)/ready: pyproject.toml tools/setup.sh
	@sh tools/setup.sh $(VENV)
	@touch $@

demo: setup
	@$(VENV)/bin/snipfold check $(EXAMPLE)
	@$(VENV)/bin/snipfold publish $(EXAMPLE) --to $(PUBLISHED)
	@echo
	@echo "The published folder is $(CURDIR)/$(PUBLISHED)"

test: setup
	@$(PY) -m pytest -n 2

lint: setup
	@$(VENV)/bin/ruff check .
	@$(VENV)/bin/ruff format --check .
	@$(VENV)/bin/mypy

bench: setup
	@$(PY) bench/run.py

soak: setup
	@SNIPFOLD_SOAK=1 $(PY) -m pytest -n 2 -m "soak or not soak"

clean:
	rm -rf $(VENV) published .pytest_cache .mypy_cache .ruff_cache .hypothesis build
