"""The OpenAPI document."""

import json
import re
from pathlib import Path

from openapi_spec_validator import validate

from service.api.document import write_document

KEPT = Path(__file__).parents[2] / "api_docs" / "openapi.json"


def test_the_kept_document_is_current(studio):
    """What lies in api_docs is what the routes say now: else run `batchbee openapi`."""
    assert KEPT.read_text(encoding="utf-8") == write_document(studio.app)


def test_the_document_is_valid_openapi(studio):
    """By openapi-spec-validator, and it says that it is 3.1."""
    document = json.loads(write_document(studio.app))
    validate(document)
    assert document["openapi"].startswith("3.1")


def test_the_document_has_every_route_and_no_other(studio):
    """Paths and methods of the document are those of the route table."""
    document = json.loads(write_document(studio.app))
    described = {
        (method.upper(), path)
        for path, item in document["paths"].items()
        for method in item
        if method != "parameters"
    }
    routed = {
        (method, re.sub(r"<(\w+)>", r"{\1}", rule.rule))
        for rule in studio.app.url_map.iter_rules()
        if not rule.endpoint.startswith("api-docs")
        for method in rule.methods - {"HEAD", "OPTIONS"}
    }
    assert described == routed


def test_every_operation_is_described(studio):
    """A summary, whether it needs a key, and for each refusal the media type of problems."""
    document = json.loads(write_document(studio.app))
    for path, item in document["paths"].items():
        for method, operation in item.items():
            if method == "parameters":
                continue
            assert operation["summary"].endswith("."), (method, path)
            assert "security" in operation
            for status, answer in operation["responses"].items():
                if status >= "4" and "content" in answer:
                    assert list(answer["content"]) == ["application/problem+json"], (method, path, status)


def test_the_served_document_is_the_kept_one(studio):
    """Anyone may read it under the API itself."""
    served = studio.app.test_client().get("/api/v1/openapi.json")
    assert served.json == json.loads(write_document(studio.app))
