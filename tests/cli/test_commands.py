"""The commands, over real HTTP."""

import hashlib
import json

import httpx
import pytest

from service.cli.client import Client, NoService, Refused, find_key
from service.cli.fetching import fetch_project
from service.cli.following import NotAllMade, check_all_made, follow
from service.cli.serving import settings_for


def submit(terminal, *more):
    return terminal.run("submit", terminal.write(), terminal.folder / "leaf.svg", "--no-follow", *more)


def test_a_project_goes_from_its_file_to_a_batch(terminal):
    """Stored, its drawing read, checked, submitted; the batch's id alone is on standard output."""
    done = submit(terminal, "--release", "2027-01-20")
    assert done.exit_code == 0, done.output
    batch = terminal.studio.maker.get(f"/api/v1/batches/{done.stdout.strip()}").json
    assert "leaf (2" in done.stderr
    [project] = terminal.studio.maker.get("/api/v1/projects").json["projects"]
    assert batch["projects"] == [project["id"]]
    assert project["release"] == "2027-01-20"


def test_the_same_title_again_changes_the_project(terminal):
    """One project, its second revision, where it is filed kept, the drawing in place of the first."""
    submit(terminal, "--release", "2027-01-20")
    done = submit(terminal)
    assert done.exit_code == 0, done.output
    [project] = terminal.studio.maker.get("/api/v1/projects").json["projects"]
    assert (project["revision"], project["release"]) == (2, "2027-01-20")


def test_two_projects_of_one_title_are_not_guessed_between(terminal):
    """Both are named, and nothing is changed."""
    ids = [terminal.studio.add() for _ in range(2)]
    done = submit(terminal)
    assert done.exit_code == 1
    assert all(id_ in done.stderr for id_ in ids)
    named = terminal.run("submit", terminal.write(id=ids[1]), terminal.folder / "leaf.svg", "--no-follow")
    assert named.exit_code == 0, named.output
    assert terminal.studio.maker.get(f"/api/v1/projects/{ids[1]}").json["revision"] == 2


def test_a_project_of_another_series_is_left_alone(terminal):
    """The same title in two years is two projects; one that is in no series yet is taken into it."""
    years = [terminal.studio.maker.post("/api/v1/series", json={"title": t}).json["id"] for t in ("26", "27")]
    old = terminal.studio.add(series=years[0])
    assert submit(terminal, "--series", years[1]).exit_code == 0
    cards = {c["id"]: c for c in terminal.studio.maker.get("/api/v1/projects").json["projects"]}
    assert (len(cards), cards[old]["revision"]) == (2, 1)
    loose = terminal.studio.add(title="Peas")
    file = terminal.write(title="Peas")
    done = terminal.run("submit", file, terminal.folder / "leaf.svg", "--no-follow", "--series", years[1])
    assert done.exit_code == 0
    assert terminal.studio.maker.get(f"/api/v1/projects/{loose}").json["series"] == years[1]


def test_faults_are_printed_one_a_line(terminal):
    """Each with its pointer and what would be right; exit code 1; nothing is stored."""
    file = terminal.write(title="", top={"unit": "gird", "rows": []})
    done = terminal.run("submit", file)
    assert done.exit_code == 1
    lines = [line for line in done.stderr.splitlines() if line.startswith("  ")]
    assert any(line.startswith("  /title: ") for line in lines)
    assert any(line.startswith("  /top/unit: ") and "right would be" in line for line in lines)
    assert done.stdout == ""


def test_a_project_that_is_not_ready_is_not_submitted(terminal):
    """What is missing is said; no batch is made."""
    done = terminal.run("submit", terminal.write())
    assert done.exit_code == 1
    assert "/pieces/0/outline" in done.stderr
    assert terminal.studio.maker.get("/api/v1/batches").json["batches"] == []


def test_a_file_that_is_not_json_says_where(terminal):
    """Line and column; and a drawing that cannot be read is named."""
    file = terminal.folder / "broken.json"
    file.write_text('{"title": "x",\n "top" }')
    done = terminal.run("submit", file)
    assert (done.exit_code, "line 2, column 8" in done.stderr) == (1, True)
    (terminal.folder / "leaf.svg").write_text("<svg")
    done = terminal.run("submit", terminal.write(), terminal.folder / "leaf.svg")
    assert (done.exit_code, "leaf.svg" in done.stderr) == (1, True)


def test_following_says_what_failed_and_ends_with_code_4(terminal):
    """The reason, the place, what would be right, and how to try again; retrying sets it going."""
    batch = submit(terminal).stdout.strip()
    shown = terminal.studio.maker.get(f"/api/v1/batches/{batch}").json
    job = terminal.studio.job(shown, "cutting")
    terminal.studio.break_job(job)
    listed = terminal.run("status", batch)
    assert (listed.exit_code, "aborted" in listed.stdout, "the bean pod is too long" in listed.stdout) == (
        0,
        True,
        True,
    )
    again = terminal.run("retry", job)
    assert (again.exit_code, "tried again" in again.stdout) == (0, True)
    twice = terminal.run("retry", job)
    assert (twice.exit_code, "pending" in twice.stderr) == (1, True)


def test_status_without_a_batch_lists_the_last_ones(terminal):
    """Newest first, in words; and says how to begin where there is none."""
    assert "batchbee submit" in terminal.run("status").stdout
    batch = submit(terminal).stdout.strip()
    assert terminal.run("status").stdout.startswith(batch)


def test_what_is_fetched_is_checked(terminal):
    """Files lie in the folder with the bytes that were made; a second fetch leaves them alone."""
    batch = submit(terminal).stdout.strip()
    shown = terminal.studio.maker.get(f"/api/v1/batches/{batch}").json
    terminal.studio.finish(terminal.studio.job(shown, "cutting"), {"cutting.json": b'{"cuts": []}'})
    [project] = shown["projects"]
    to = terminal.folder / "out"
    done = terminal.run("fetch", "--project", project, "--to", to)
    assert done.exit_code == 0, done.output
    assert (to / "cutting.json").read_bytes() == b'{"cuts": []}'
    before = (to / "cutting.json").stat().st_mtime_ns
    terminal.run("fetch", "--project", project, "--to", to)
    assert (to / "cutting.json").stat().st_mtime_ns == before
    assert [p.name for p in to.iterdir()] == ["cutting.json"]


def test_a_bundle_is_fetched_by_date_and_track(terminal):
    """By the studio before the day; a stranger is told that there is nothing."""
    batch = submit(terminal, "--release", "2027-01-20").stdout.strip()
    shown = terminal.studio.maker.get(f"/api/v1/batches/{batch}").json
    fetch = ("fetch", "--release", "2027-01-20", "--to", terminal.folder / "out")
    early = terminal.run(*fetch)
    assert (early.exit_code, "Not made yet" in early.stderr) == (1, True)
    terminal.studio.finish(
        terminal.studio.job(shown, "bundle", "by hand"), {"bundle-by-hand.zip": b"PK bundle"}
    )
    done = terminal.run(*fetch, "--track", "by hand")
    assert done.exit_code == 0, done.output
    assert (terminal.folder / "out" / "bundle-by-hand.zip").read_bytes() == b"PK bundle"
    stranger = terminal.run(*fetch, key="")
    assert (stranger.exit_code, "Nothing is released" in stranger.stderr) == (1, True)
    loom = terminal.run(*fetch, "--track", "loom")
    assert (loom.exit_code, "by hand" in loom.stderr) == (1, True)


def test_bytes_with_another_sum_are_not_kept(tmp_path):
    """A file that was changed on the way is refused, and nothing is left behind."""
    good = hashlib.sha256(b"good").hexdigest()

    def answer(request):
        if request.url.path.endswith("/artifacts"):
            return httpx.Response(200, json={"artifacts": [{"id": "1", "name": "a.json", "sha256": good}]})
        return httpx.Response(200, content=b"bad")

    client = Client("http://studio", transport=httpx.MockTransport(answer))
    with pytest.raises(Refused, match="came with the sum"):
        fetch_project(client, "p", tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_file_name_that_is_a_path_is_refused(tmp_path):
    """Whatever a service says, nothing is written outside the folder."""

    def answer(_request):
        return httpx.Response(200, json={"artifacts": [{"id": "1", "name": "../a", "sha256": "0" * 64}]})

    with pytest.raises(Refused, match="cannot be a file here"):
        fetch_project(Client("http://studio", transport=httpx.MockTransport(answer)), "p", tmp_path / "to")


def test_a_key_is_made_and_works(terminal):
    """The secret alone is on standard output; an assistant's key cannot make more."""
    made = terminal.run("token", "tablet", "--role", "assistant")
    assert made.exit_code == 0
    secret = made.stdout.strip()
    assert terminal.run("status", key=secret).exit_code == 0
    refused = terminal.run("token", "another", key=secret)
    assert (refused.exit_code, "Only the maker" in refused.stderr) == (1, True)


def test_no_service_and_no_key_are_told_apart_by_words_and_code_3(terminal):
    """Nothing listening; a key nobody knows."""
    unknown = terminal.run("status", key="bee_nobody")
    assert (unknown.exit_code, "not known" in unknown.stderr) == (3, True)
    nowhere = terminal.run("status", "--url", "http://127.0.0.1:9")
    assert (nowhere.exit_code, "batchbee serve" in nowhere.stderr) == (3, True)


def test_the_key_is_found_in_the_data_folder(tmp_path):
    """The given one first, then the maker's of this machine, then none."""
    (tmp_path / "maker.token").write_text("bee_from-the-folder\n")
    assert find_key("bee_given ", tmp_path) == "bee_given"
    assert find_key("", tmp_path) == "bee_from-the-folder"
    assert find_key("", tmp_path / "nothing") == ""


def test_wrong_usage_has_code_2(terminal):
    """As command lines do it everywhere."""
    for words in (
        ("fetch", "--to", "x"),
        ("fetch", "--project", "a", "--track", "b", "--to", "x"),
        ("submit",),
    ):
        assert terminal.run(*words).exit_code == 2


def batch_answers(*batches):
    """A client whose batch changes at each look."""
    left = list(batches)

    def answer(_request):
        return httpx.Response(200, json=left.pop(0) if len(left) > 1 else left[0])

    return Client("http://studio", transport=httpx.MockTransport(answer))


def as_batch(state, **job):
    made = {
        "id": "j",
        "kind": "cutting",
        "track": None,
        "problem": None,
        "message": "",
        "state": state,
        **job,
    }
    done = state == "completed"
    return {"state": state, "fraction_done": float(done), "counts": {"completed": int(done)}, "jobs": [made]}


def test_following_ends_with_the_batch(capsys):
    """Completed is fine; failed says why, once, and raises."""
    batch = follow(batch_answers(as_batch("pending"), as_batch("processing"), as_batch("completed")), "b")
    check_all_made(batch)
    assert "1 of 1 made" in capsys.readouterr().err
    failed = as_batch("aborted", message="No room.", problem={"pointer": "/top", "right": "a larger cloth"})
    ended = follow(batch_answers(as_batch("pending"), failed), "b")
    assert capsys.readouterr().err.count("No room (/top). Right would be: a larger cloth.") == 1
    with pytest.raises(NotAllMade, match="batchbee retry j"):
        check_all_made(ended)
    with pytest.raises(NotAllMade, match="canceled"):
        check_all_made(as_batch("canceled"))


def test_a_busy_service_is_asked_again(monkeypatch):
    """503 twice, then the answer; and an answer that is no JSON is still said in words."""
    monkeypatch.setattr("service.cli.client.time.sleep", lambda _: None)
    answers = [
        httpx.Response(503),
        httpx.Response(503),
        httpx.Response(200, json={"ok": 1}),
        httpx.Response(502),
    ]
    client = Client("http://studio", transport=httpx.MockTransport(lambda _request: answers.pop(0)))
    assert client.get("/x") == {"ok": 1}
    with pytest.raises(Refused, match="502 Bad Gateway"):
        client.get("/x")
    broken = Client("http://studio", transport=httpx.MockTransport(_break))
    with pytest.raises(NoService):
        broken.get("/x")


def _break(request):
    raise httpx.ReadTimeout("too slow", request=request)


def test_serve_takes_the_folder_and_the_port_from_its_options(monkeypatch, tmp_path):
    """The database goes with the folder, unless it was set by itself."""
    monkeypatch.delenv("BATCHBEE_DATABASE_URL", raising=False)
    chosen = settings_for(tmp_path / "studio", None, 9000)
    assert (chosen.data, chosen.port) == (tmp_path / "studio", 9000)
    assert str(tmp_path / "studio") in chosen.database_url
    monkeypatch.setenv("BATCHBEE_DATABASE_URL", "postgresql://bee@host/studio")
    assert settings_for(tmp_path, None, 9000).database_url.startswith("postgresql")


def test_the_reference_is_written_and_checked(terminal):
    """`--check` tells a current file from another by its exit code."""
    file = terminal.folder / "openapi.json"
    assert terminal.run("openapi", "--check", "--to", file).exit_code == 1
    assert terminal.run("openapi", "--to", file).exit_code == 0
    assert terminal.run("openapi", "--check", "--to", file).exit_code == 0
    assert json.loads(file.read_text())["info"]["title"] == "Batchbee"
