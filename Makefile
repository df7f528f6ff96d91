# Everything a person or CI does here, one word each. `make help` lists the words.
PYTHON ?= $(shell command -v python3.11 || command -v python3)
VENV   := .venv
BIN    := $(VENV)/bin
READY  := $(VENV)/ready
export SOURCE_DATE_EPOCH ?= 315532800

.PHONY: help setup demo test lint types docs pictures bench check format clean

help: ## this list
	@grep -hE '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 10

setup: $(READY) ## a virtual environment with everything, and the system library for PDF

$(READY): pyproject.toml constraints.txt .ci/system-libraries
	@echo "Setting up: a virtual environment in $(VENV), about a minute."
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Batchbee needs Python 3.11 or newer; this is " + sys.version.split()[0])'
	@$(PYTHON) -m venv $(VENV)
	@$(BIN)/pip install -qq --disable-pip-version-check --constraint constraints.txt --editable ".[dev]"
	@sh .ci/system-libraries $(BIN)/python
	@touch $(READY)

demo: ## the whole job on the seed data: finished bundles in demo-output/
	@start=$$(date +%s); $(MAKE) --no-print-directory setup && \
	echo "Set-up took $$(( $$(date +%s) - start )) s. Now the job." && \
	$(BIN)/batchbee demo --seed seed_data --to demo-output

test: setup ## every test, doctests included
	@$(BIN)/pytest -n 2 --dist loadgroup

lint: setup ## ruff, format and the rules of direction
	@$(BIN)/ruff check . && $(BIN)/ruff format --check . && $(BIN)/lint-imports

types: setup ## mypy, strict
	@$(BIN)/mypy

docs: setup ## api_docs/openapi.json, the catalogues of words, and the examples of a shopping list and a sewing plan
	@$(BIN)/batchbee openapi
	@$(BIN)/python -m api_docs.collect_words
	@$(BIN)/python api_docs/make_shopping_example.py seed_data
	@$(BIN)/python api_docs/make_sewing_example.py seed_data

pictures: demo ## the pictures of the README, from what the demo made
	@$(BIN)/python api_docs/make_pictures.py demo-output seed_data

bench: setup ## ratios, measured side by side in one run (cloths in files: batchbee bench cloth FILE...)
	@for b in tests/bench/bench_*.py; do echo "== $$b"; $(BIN)/python $$b || exit 1; done

check: lint types test ## what CI runs

format: setup ## set the code in order
	@$(BIN)/ruff check --fix . ; $(BIN)/ruff format .

clean: ## take away everything made here
	@rm -rf $(VENV) demo-output build *.egg-info .pytest_cache .mypy_cache .ruff_cache
