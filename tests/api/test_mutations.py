"""Spoilt documents: whatever is sent, the answer is in order and never a fault of ours."""

import copy
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.settings import Settings
from tests.api.conftest import DOCUMENT, make_studio
from tests.conftest import StillClock

SIGNS = st.characters(exclude_categories=["Cs"], exclude_characters="\0")
"""Every sign that JSON over HTTP may carry: the others are refused with 400 before anybody reads them."""

SCALARS = st.one_of(
    st.none(), st.booleans(), st.integers(-(10**20), 10**20), st.floats(allow_nan=False, allow_infinity=False),
    st.text(SIGNS, max_size=12),
    st.sampled_from(["pair", "cream", "1/0", "3 1/2", "-1", "1e9", "hoop 0x0", "leaf.svg#", "#", "2027-02-30"]),
)  # fmt: skip
JSON = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(SIGNS, max_size=5), inner, max_size=3)
    ),
)


def places(value, path=()):
    """Every place in a JSON value."""
    yield path
    if isinstance(value, dict):
        for key, inside in value.items():
            yield from places(inside, (*path, key))
    elif isinstance(value, list):
        for index, inside in enumerate(value):
            yield from places(inside, (*path, index))


PLACES = [path for path in places({**DOCUMENT, "series": None, "release": "2027-01-20"}) if path]


def spoil(changes):
    """The document with something else in some places; a place that is gone by then is left."""
    spoilt = copy.deepcopy({**DOCUMENT, "series": None, "release": "2027-01-20"})
    for path, value in changes:
        inside = spoilt
        try:
            for step in path[:-1]:
                inside = inside[step]
            inside[path[-1]] = value
        except (KeyError, IndexError, TypeError):
            continue
    return spoilt


@pytest.fixture(scope="module")
def lasting(tmp_path_factory: pytest.TempPathFactory):
    made = make_studio(Settings.for_folder(Path(tmp_path_factory.mktemp("spoilt"))), StillClock())
    yield made
    made.wiring.database.close_idle()


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True)
@given(st.lists(st.tuples(st.sampled_from(PLACES), JSON), min_size=1, max_size=3))
def test_a_spoilt_document_is_stored_or_refused_with_its_faults(lasting, changes):
    """201, and then check, drawing, tracks and releases answer too; or 422 with at least one fault."""
    answer = lasting.maker.post("/api/v1/projects", json=spoil(changes))
    if answer.status_code == 422:
        assert answer.json["errors"]
        return
    assert answer.status_code == 201
    project = f"/api/v1/projects/{answer.json['id']}"
    for path in ("", "/check", "/drawing", "/tracks"):
        assert lasting.maker.get(project + path).status_code == 200
    assert lasting.maker.get("/api/v1/releases").status_code == 200
    assert lasting.maker.get("/api/v1/projects?limit=200").status_code == 200


@settings(max_examples=60, deadline=None, derandomize=True)
@given(JSON)
def test_any_json_sent_anywhere_is_answered_in_order(lasting, body):
    """No 5xx from any route that takes a body, and each answer as the OpenAPI document says."""
    for path in ("/series", "/materials", "/tokens", "/batches", "/projects"):
        assert lasting.maker.post(f"/api/v1{path}", json=body).status_code < 500
    assert lasting.maker.get("/api/v1/series").status_code == 200
