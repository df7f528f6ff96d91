"""Holds every answer of the tests against the OpenAPI document: its status, media type and body.

The judge is openapi-schema-validator, which knows nothing of this service.
"""

import json
import re
from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from openapi_schema_validator import OAS31Validator
from werkzeug.exceptions import HTTPException
from werkzeug.test import TestResponse

from service.api.document import write_document

PROBLEM = "application/problem+json"


class Contract:
    """The document of one application, and the judging by it."""

    def __init__(self, app: Flask) -> None:
        self.document = json.loads(write_document(app))
        self._map = app.url_map

    def judge(self, method: str, path: str, answer: TestResponse) -> None:
        """Fail where the document does not know such an answer."""
        operation = self._operation(method, path)
        if operation is None:
            assert answer.status_code in (404, 405, 413), (method, path, answer.status)
            self._check_body(self._schema_of_problem(), answer)
            return
        known = operation["responses"]
        entry = known.get(str(answer.status_code))
        assert entry is not None or answer.status_code >= 500, (
            method,
            path,
            answer.status,
            sorted(known),
            answer.data,
        )
        entry = self._resolve(entry or known["default"])
        content = entry.get("content")
        if content is None or method == "HEAD" or answer.status_code in (204, 304):
            return
        if answer.status_code >= 400:
            assert answer.mimetype == PROBLEM
        if answer.mimetype in content and answer.is_json:
            self._check_body(content[answer.mimetype]["schema"], answer)
        else:
            assert answer.mimetype in content or "application/octet-stream" in content, answer.mimetype

    def _operation(self, method: str, path: str) -> dict[str, Any] | None:
        look = "GET" if method == "HEAD" else method
        try:
            rule, _ = self._map.bind("localhost").match(path.partition("?")[0], method=look, return_rule=True)
        except HTTPException:
            return None
        if rule.endpoint.startswith("api-docs"):
            return None
        template = re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule)
        return self.document["paths"].get(template, {}).get(look.lower())

    def _check_body(self, schema: dict[str, Any], answer: TestResponse) -> None:
        whole = {**schema, "components": self.document["components"]}
        faults = [
            f"{list(e.path)}: {e.message}" for e in OAS31Validator(whole).iter_errors(answer.get_json())
        ]
        assert not faults, faults

    def _schema_of_problem(self) -> dict[str, Any]:
        return {"$ref": "#/components/schemas/Problem"}

    def _resolve(self, entry: dict[str, Any]) -> dict[str, Any]:
        if "$ref" in entry:
            return self.document["components"]["responses"][entry["$ref"].rsplit("/", 1)[-1]]
        return entry


class JudgedClient(FlaskClient):
    """A client that speaks with one key, and whose every answer is judged."""

    key: str = ""
    contract: Contract | None = None

    def open(self, path: str, *args: Any, **kwargs: Any) -> TestResponse:
        headers = dict(kwargs.pop("headers", None) or {})
        if self.key:
            headers.setdefault("Authorization", f"Bearer {self.key}")
        # Read whole and closed, as a server does it; files would stay open otherwise.
        kwargs.setdefault("buffered", True)
        answer = super().open(path, *args, headers=headers, **kwargs)
        if self.contract is not None:
            self.contract.judge(kwargs.get("method", "GET").upper(), path, answer)
        return answer
