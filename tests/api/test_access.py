"""Who may call what: every route with every kind of caller."""

from datetime import timedelta

import pytest

from service.api.access import Circle
from service.api.rooms import ROOMS

MAKER_ONLY = {
    ("POST", "/series"), ("PUT", "/series/<id_>"), ("PATCH", "/series/<id_>"), ("DELETE", "/series/<id_>"),
    ("POST", "/projects"), ("PUT", "/projects/<id_>"), ("PATCH", "/projects/<id_>"),
    ("DELETE", "/projects/<id_>"),
    ("POST", "/projects/<id_>/outlines"), ("DELETE", "/projects/<id_>/outlines/<name>"),
    ("PATCH", "/projects/<id_>/outlines/<name>/shapes/<shape>"),
    ("POST", "/projects/<id_>/swatches"), ("DELETE", "/projects/<id_>/swatches/<name>"),
    ("DELETE", "/materials/<id_>"),
    ("POST", "/tokens"), ("GET", "/tokens"), ("DELETE", "/tokens/<id_>"),
}  # fmt: skip
"""Decided for this studio: documents and keys are the maker's; the assistant reads all, submits, follows,
cancels, retries, downloads, words the steps and keeps the list of materials."""

FOR_ANYONE = {
    ("GET", "/artifacts/<id_>"), ("GET", "/artifacts/<id_>/content"),
    ("GET", "/releases"), ("GET", "/releases/<on>"), ("GET", "/releases/<on>/bundles/<track>"),
    ("GET", "/problems/<name>"), ("GET", "/healthz"), ("GET", "/readyz"),
}  # fmt: skip


def routes(app):
    """(method, rule without prefix, circle) of every route made by a room."""
    for rule in app.url_map.iter_rules():
        view = app.view_functions[rule.endpoint]
        if hasattr(view, "circle"):
            for method in rule.methods - {"HEAD", "OPTIONS"}:
                yield method, rule.rule.removeprefix("/api/v1"), view.circle


def filled(rule):
    """The rule with something in place of its parts."""
    return (
        rule.replace("<id_>", "0" * 36)
        .replace("<name>", "x")
        .replace("<shape>", "x")
        .replace("<on>", "2027-01-01")
        .replace("<track>", "x")
    )


def test_there_is_no_route_without_a_circle(studio):
    """Every rule but the OpenAPI document is made by a room, and says who may call it."""
    bare = [
        rule.rule for rule in studio.app.url_map.iter_rules()
        if not hasattr(studio.app.view_functions[rule.endpoint], "circle")
    ]  # fmt: skip
    assert bare == ["/api/v1/openapi.json"]
    assert len(ROOMS) == 17


def test_the_circles_are_the_decided_ones(studio):
    """Each route is in the circle that the lists above say."""
    for method, rule, circle in routes(studio.app):
        expected = (
            Circle.MAKER if (method, rule) in MAKER_ONLY
            else Circle.ANYONE if (method, rule) in FOR_ANYONE
            else Circle.STUDIO
        )  # fmt: skip
        assert circle is expected, (method, rule)


def test_every_route_with_every_caller(studio):
    """Without a key 401, with the assistant's 403 where only the maker may, with a bad one 401 everywhere."""
    bad = studio.client("bee_not_a_key_that_was_ever_made")
    for method, rule, circle in routes(studio.app):
        path = filled(rule) if rule.endswith("z") else "/api/v1" + filled(rule)
        send = {"method": method, "json": {}} if method in ("POST", "PUT", "PATCH") else {"method": method}
        stranger = studio.stranger.open(path, **send)
        assert (stranger.status_code == 401) == (circle is not Circle.ANYONE), (method, rule)
        if stranger.status_code == 401:
            assert stranger.headers["WWW-Authenticate"].startswith("Bearer")
        assistant = studio.assistant.open(path, **send)
        assert (assistant.status_code == 403) == (circle is Circle.MAKER), (method, rule)
        assert studio.maker.open(path, **send).status_code not in (401, 403), (method, rule)
        assert bad.open(path, **send).status_code == 401, (method, rule)


def test_an_expired_or_revoked_key_opens_nothing(studio):
    """Expiry is by the server's clock, to the second; a revoked key is worthless at once."""
    until = (studio.clock() + timedelta(hours=1)).isoformat()
    body = {"name": "tablet", "role": "assistant", "expires": until}
    made = studio.maker.post("/api/v1/tokens", json=body)
    assert made.status_code == 201
    tablet = studio.client(made.json["secret"])
    assert tablet.get("/api/v1/projects").status_code == 200
    studio.clock.move(3599)
    assert tablet.get("/api/v1/projects").status_code == 200
    studio.clock.move(1)
    assert tablet.get("/api/v1/projects").status_code == 401

    other = studio.maker.post("/api/v1/tokens", json={"name": "phone", "role": "maker"}).json
    phone = studio.client(other["secret"])
    assert phone.delete(f"/api/v1/tokens/{other['id']}").status_code == 409
    assert studio.maker.delete(f"/api/v1/tokens/{other['id']}").status_code == 204
    assert phone.get("/api/v1/projects").status_code == 401
    assert studio.maker.delete(f"/api/v1/tokens/{other['id']}").status_code == 404


def test_a_secret_is_shown_once_and_not_kept(studio):
    """Neither the list of keys nor the database file holds it."""
    secret = studio.maker.post("/api/v1/tokens", json={"name": "phone", "role": "assistant"}).json["secret"]
    assert secret.startswith("bee_")
    assert secret not in studio.maker.get("/api/v1/tokens").text
    studio.wiring.database.close_idle()
    folder = studio.wiring.settings.data
    assert all(secret.encode() not in file.read_bytes() for file in folder.rglob("*") if file.is_file())


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({"name": "x", "role": "owner"}, "/role"),
        ({"role": "maker"}, "/name"),
        ({"name": "x", "role": "maker", "expires": "2020-01-01T00:00:00Z"}, "/expires"),
        ({"name": "x", "role": "maker", "expires": "tomorrow"}, "/expires"),
        ({"name": "x", "role": "maker", "scopes": []}, "/scopes"),
    ],
)
def test_a_key_that_cannot_be_made_says_why(studio, body, pointer):
    """422 with the pointer of the field."""
    answer = studio.maker.post("/api/v1/tokens", json=body)
    assert answer.status_code == 422
    assert [entry["pointer"] for entry in answer.json["errors"]] == [pointer]


def test_answers_carry_the_safe_headers_and_no_other_site_may_read_them(studio):
    """nosniff, a content policy, no copy for others, nothing about other origins."""
    answer = studio.maker.get("/api/v1/projects", headers={"Origin": "https://example.org"})
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
    assert answer.headers["Cache-Control"] == "private, no-cache"
    assert "Authorization" in answer.headers["Vary"]
    assert not [name for name, _ in answer.headers if name.startswith("Access-Control")]


def test_unknown_addresses_and_methods_are_problems(studio):
    """404 and 405 with Allow, in the form of every refusal."""
    nothing = studio.maker.get("/api/v1/nothing")
    assert (nothing.status_code, nothing.mimetype) == (404, "application/problem+json")
    wrong = studio.maker.open("/api/v1/projects", method="DELETE")
    assert wrong.status_code == 405
    assert {"GET", "POST"} <= set(wrong.headers["Allow"].split(", "))
    assert wrong.json["detail"] == "This address does not know the method DELETE."
    trace = studio.maker.open("/api/v1/projects", method="TRACE")
    assert (trace.status_code, "GET" in trace.headers["Allow"]) == (405, True)


def test_the_types_of_problem_are_explained(studio):
    """The `type` of a refusal leads to words."""
    answer = studio.maker.post("/api/v1/projects", json={})
    explained = studio.stranger.get(answer.json["type"])
    assert explained.json["title"] == answer.json["title"]


def test_a_fault_of_ours_is_a_500_without_details(studio, monkeypatch):
    """The log has the trace; the answer has none of it."""
    monkeypatch.setattr("service.api.series.show_series", lambda row: 1 / 0)
    studio.maker.post("/api/v1/series", json={"title": "A year"})
    answer = studio.maker.get("/api/v1/series")
    assert answer.status_code == 500
    assert "division" not in answer.text
