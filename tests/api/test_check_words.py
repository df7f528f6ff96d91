"""The check over HTTP: fields nobody knows are kept as sent, and named; what the service adds is none of them."""


def test_an_unknown_field_is_kept_and_named_in_the_check(studio):
    """Stored as it is, with a word that nothing is made of it."""
    raw = studio.document()
    raw["top"] = raw["top"] | {"rotation": 90}
    made = studio.maker.post("/api/v1/projects", json=raw)
    assert made.status_code == 201
    assert made.json["top"]["rotation"] == 90
    check = studio.assistant.get(f"/api/v1/projects/{made.json['id']}/check").json
    [warning] = [w for w in check["warnings"] if w["pointer"] == "/top/rotation"]
    assert "nothing is made of it" in warning["detail"]


def test_a_document_sent_back_as_it_was_answered_is_not_blamed_for_what_stands_beside_it(studio):
    """`id`, `revision` and `updated` come from the service; a field of the maker's own is the one that is named."""
    id_ = studio.add()
    got = studio.maker.get(f"/api/v1/projects/{id_}")
    studio.maker.put(f"/api/v1/projects/{id_}", json=got.json, headers={"If-Match": got.headers["ETag"]})
    check = studio.assistant.get(f"/api/v1/projects/{id_}/check").json
    assert [w["pointer"] for w in check["warnings"] if "nothing is made of it" in w["detail"]] == [
        "/notes_of_my_own"
    ]
