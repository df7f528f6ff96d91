"""Keys, and the first one."""

import stat

import pytest
from sqlalchemy import select

from service.storage.models import Role, Token
from service.studio.keys import KEY_FILE, add_token, ensure_maker_token, find_caller, make_secret


def test_the_first_start_writes_a_makers_key_that_only_its_owner_can_read(sqlite_database, settings, clock):
    """Mode 600, the secret in it works, and a second start changes nothing."""
    place = ensure_maker_token(sqlite_database, settings.data, now=clock())
    assert place == settings.data / KEY_FILE
    assert stat.S_IMODE(place.stat().st_mode) == 0o600
    secret = place.read_text().strip()
    assert find_caller(sqlite_database, secret, now=clock()).role == Role.MAKER
    assert ensure_maker_token(sqlite_database, settings.data, now=clock()) is None
    assert place.read_text().strip() == secret


def test_a_key_the_studio_fixed_works_and_no_file_is_written(sqlite_database, settings, clock):
    """Also on every later start, and beside one that was there."""
    fixed = "bee_the-allotment-gate-2027"
    for _ in range(2):
        assert ensure_maker_token(sqlite_database, settings.data, now=clock(), fixed=fixed) is None
    assert find_caller(sqlite_database, fixed, now=clock()).is_maker
    assert not (settings.data / KEY_FILE).exists()


@pytest.mark.parametrize(
    "fixed", ["bee_short", "leek_long-enough-but-not-ours", "bee_with spaces in the middle"]
)
def test_a_fixed_key_that_can_be_guessed_is_refused(sqlite_database, settings, clock, fixed):
    """Before anything is written."""
    with pytest.raises(ValueError, match="BATCHBEE_MAKER_TOKEN"):
        ensure_maker_token(sqlite_database, settings.data, now=clock(), fixed=fixed)


def test_secrets_differ_and_are_long():
    """256 bits of chance behind the prefix: no two of a hundred are alike."""
    made = {make_secret() for _ in range(100)}
    assert len(made) == 100
    assert min(map(len, made)) == len("bee_") + 43


def test_the_last_use_is_noted_to_within_minutes(sqlite_database, clock):
    """Not at every request: a write would make readers wait."""
    secret = make_secret()
    with sqlite_database.writing() as session:
        add_token(session, name="x", role=Role.MAKER, secret=secret, now=clock())

    def last_use():
        with sqlite_database.reading() as session:
            return session.scalar(select(Token.last_used_at))

    find_caller(sqlite_database, secret, now=clock())
    first = last_use()
    find_caller(sqlite_database, secret, now=clock.move(60))
    assert last_use() == first
    find_caller(sqlite_database, secret, now=clock.move(300))
    assert last_use() > first
