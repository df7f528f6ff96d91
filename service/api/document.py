"""The OpenAPI document: written from the same words that the routes are made of."""

from __future__ import annotations

import json
from http import HTTPStatus
from typing import Any

from flask import Flask
from flask_smorest import Api

from service.api.problems import MEDIA_TYPE
from service.api.schemas.common import ProblemSchema

ABOUT = """The back room of a sewing studio: projects in; cutting plans, templates, cut files, stitch files and
handouts out. Requests and answers are JSON; refusals are problem details (RFC 9457) with every fault, where
it is and what would be right. Lists come in pages: `next` is the cursor of the page after, also in `Link`.
What is changed is changed with `If-Match`. The guide beside this document walks through the job."""


class BeeApi(Api):  # type: ignore[misc]  # flask-smorest has no types
    """Our routes in one document, problems and keys included."""

    def __init__(self, app: Flask) -> None:
        app.config.update(
            API_TITLE="Batchbee",
            API_VERSION="1",
            OPENAPI_VERSION="3.1.0",
            OPENAPI_URL_PREFIX="/api/v1",
            OPENAPI_JSON_PATH="openapi.json",
        )
        super().__init__(app, spec_kwargs={"info": {"description": ABOUT}})
        self.spec.components.security_scheme(
            "key", {"type": "http", "scheme": "bearer", "description": "a key of the studio: bee_…"}
        )

    def _register_error_handlers(self) -> None:
        """Ours are registered by `create_app`."""

    def _register_responses(self) -> None:
        """Every refusal is a problem, in its own media type."""
        for name, words in ((s.name, s.phrase) for s in HTTPStatus):
            self.spec.components.response(name, _problem(name, words), lazy=True)
        self.spec.components.response("DEFAULT_ERROR", _problem("", "Any other refusal"), lazy=True)


def _problem(name: str, words: str) -> dict[str, Any]:
    answer: dict[str, Any] = {"description": words}
    if name not in ("NOT_MODIFIED", "NO_CONTENT"):
        answer["content"] = {MEDIA_TYPE: {"schema": ProblemSchema}}
    return answer


def write_document(app: Flask) -> str:
    """The OpenAPI document of an application as text: the same for the same routes."""
    api = app.extensions["flask-smorest"]["apis"][""]["ext_obj"]
    return json.dumps(api.spec.to_dict(), indent=2, ensure_ascii=False) + "\n"
