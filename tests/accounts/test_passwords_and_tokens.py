"""Passwords, tokens and the throttle, without a database."""

import re
from datetime import UTC, datetime, timedelta

import pytest
from argon2 import PasswordHasher

from server.accounts import throttle as throttling
from server.accounts.passwords import (
    PasswordOfWrongLength,
    hash_password,
    needs_rehash,
    verify_password,
)
from server.accounts.throttle import Throttle
from server.accounts.tokens import new_token, token_hash

NOON = datetime(2031, 3, 1, 12, tzinfo=UTC)


def test_a_password_is_verified_against_its_hash_alone():
    kept = hash_password("three dry basements")
    assert kept.startswith("$argon2id$")
    assert verify_password("three dry basements", kept)
    assert not verify_password("three wet basements", kept)
    assert not verify_password("three dry basements", None)
    assert not verify_password("three dry basements", "no hash at all")
    assert not needs_rehash(kept)
    assert needs_rehash(PasswordHasher(time_cost=1, memory_cost=1024).hash("three dry basements"))


def test_an_accented_letter_is_the_same_from_every_keyboard():
    assert verify_password("cafe\u0301 au lait", hash_password("caf\u00e9 au lait"))


@pytest.mark.parametrize("length", [0, 9, 201])
def test_a_password_of_the_wrong_length_is_refused(length):
    with pytest.raises(PasswordOfWrongLength) as refused:
        hash_password("x" * length)
    assert refused.value.length == length


@pytest.mark.parametrize("length", [10, 200])
def test_the_lengths_at_the_limits_are_taken(length):
    assert verify_password("x" * length, hash_password("x" * length))


def test_tokens_are_long_and_fit_an_address():
    tokens = {new_token() for _ in range(100)}
    assert len(tokens) == 100
    # 160 bits in letters of 6 bits
    assert all(re.fullmatch(r"[\w-]{27}", token) for token in tokens)


def test_the_kept_hash_is_sha_256():
    # FIPS 180-2, appendix B.1: the message "abc"
    assert token_hash("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_the_throttle_counts_failures_in_its_window():
    throttle = Throttle()
    for _ in range(10):
        assert throttle.allows(["email a"], NOON)
    assert not throttle.allows(["email a"], NOON)
    assert throttle.allows(["email b"], NOON)
    assert throttle.allows(["email a"], NOON + timedelta(minutes=15))


def test_an_attempt_that_succeeded_does_not_count():
    throttle = Throttle()
    for _ in range(30):
        assert throttle.allows(["email a"], NOON)
        throttle.succeeded(["email a"])


def test_one_name_at_its_limit_is_enough():
    throttle = Throttle()
    for number in range(10):
        assert throttle.allows([f"email {number}", "address x"], NOON)
    assert not throttle.allows(["email 11", "address x"], NOON)


def test_the_throttle_does_not_grow_without_end(monkeypatch):
    monkeypatch.setattr(throttling, "MOST_NAMES", 5)
    throttle = Throttle()
    for number in range(50):
        throttle.allows([f"email {number}"], NOON)
    assert len(throttle._attempts) == 5
