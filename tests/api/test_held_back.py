"""What whose outlines are says today holds files back from the public, whatever was made and released before."""

import pytest

from tests.api.test_releases import release

OWN = {"name": "own drawing", "covers": ["leaf.svg"], "rights": "own"}
BUNDLE = "/api/v1/releases/2027-01-04/bundles/by-hand"
OUT = "2027-01-04"
"""A day that has come by the tests' clock."""


def public_paths(studio, project):
    """Where a stranger gets the files of a release: cutting plan, what is said of it, and the bundle."""
    files = studio.maker.get(f"/api/v1/projects/{project}/artifacts").json["artifacts"]
    [cutting] = [f"/api/v1/artifacts/{f['id']}" for f in files if f["name"] == "cutting.json"]
    return [cutting, f"{cutting}/content", BUNDLE, f"{BUNDLE}?project={project}"]


def say_sources(studio, project, sources):
    tag = studio.maker.get(f"/api/v1/projects/{project}").headers["ETag"]
    sent = studio.maker.patch(
        f"/api/v1/projects/{project}", json={"sources": sources}, headers={"If-Match": tag}
    )
    assert sent.status_code == 200, sent.text


def ask(client, paths, method="GET"):
    return {client.open(path, method=method).status_code for path in paths}


@pytest.mark.parametrize(
    "sources",
    [
        [],
        [{**OWN, "covers": ["pod.svg"]}],
        [{**OWN, "rights": "viewer must own"}],
        [OWN, {"name": "a neighbour's book", "covers": ["leaf.svg#leaf"], "rights": "viewer must own"}],
    ],
    ids=["nobody says", "another file", "all of it taken back", "one shape taken back"],
)
def test_a_release_ends_for_the_public_when_its_sources_are_taken_back(studio, sources):
    """404 in every way of asking, without a word of why; the studio still has everything; put back, it is out again."""
    project, _ = release(studio, OUT)
    paths = public_paths(studio, project)
    assert ask(studio.stranger, paths) == {200}
    say_sources(studio, project, sources)
    assert ask(studio.stranger, paths) == ask(studio.stranger, paths, "HEAD") == {404}
    assert {studio.stranger.get(path, headers={"Range": "bytes=0-3"}).status_code for path in paths} == {404}
    assert ask(studio.maker, paths) == ask(studio.assistant, paths) == {200}
    tracks = studio.stranger.get(f"/api/v1/releases/{OUT}").json["tracks"]
    assert [track["bundles"] for track in tracks] == [[]] * len(tracks)
    say_sources(studio, project, [OWN])
    assert ask(studio.stranger, paths) == {200}


def test_a_known_tag_brings_nothing_back(studio):
    """If-None-Match with the tag of a file that is held back is no 304."""
    project, _ = release(studio, OUT)
    paths = public_paths(studio, project)
    tags = {path: studio.stranger.get(path).headers.get("ETag") for path in paths}
    say_sources(studio, project, [])
    for path, tag in tags.items():
        answer = studio.stranger.get(path, headers={"If-None-Match": tag} if tag else {})
        assert answer.status_code == 404


def test_what_was_made_with_the_viewers_outline_left_out_stays_out(studio):
    """Nothing is held back of files that were made knowing that viewers must own the leaf."""
    project, _ = release(studio, OUT, sources=[{**OWN, "rights": "viewer must own"}])
    paths = public_paths(studio, project)
    assert ask(studio.stranger, paths) == {200}
    say_sources(studio, project, [{**OWN, "rights": "viewer must own", "credit": "the neighbour"}])
    assert ask(studio.stranger, paths) == {200}


def test_a_new_batch_lets_the_files_out_again(studio):
    """Taken back and made anew, without the leaf's outline: what is new is for everybody, what is old is not."""
    project, _ = release(studio, OUT)
    old = public_paths(studio, project)[1]
    say_sources(studio, project, [{**OWN, "rights": "viewer must own"}])
    batch = studio.submit(project)
    studio.finish(studio.job(batch, "cutting"), {"cutting.json": b"{}"})
    assert studio.stranger.get(old).status_code == 404
    assert studio.stranger.get(public_paths(studio, project)[1]).status_code == 200


def test_a_project_of_the_same_day_is_not_held_back_with_it(studio):
    """Two come out together; one is taken back: the other's bundle is there alone, and the joined one is not."""
    first, _ = release(studio, OUT, title="Peas")
    second, data = release(studio, OUT, title="Beans")
    assert studio.stranger.get(BUNDLE).status_code == 200
    say_sources(studio, first, [])
    assert studio.stranger.get(BUNDLE).status_code == 404
    assert studio.stranger.get(f"{BUNDLE}?project={first}").status_code == 404
    assert studio.stranger.get(f"{BUNDLE}?project={second}").data == data
    [track] = [
        t for t in studio.stranger.get(f"/api/v1/releases/{OUT}").json["tracks"] if t["slug"] == "by-hand"
    ]
    assert ([b["title"] for b in track["bundles"]], track["ready"]) == (["Beans"], False)
