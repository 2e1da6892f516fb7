"""Letting phones in by a code, and what they are afterwards."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest

from homestead.household import phones
from homestead.household.errors import CannotDo
from homestead.household.models import Device, PairingCode, WrongTry
from homestead.household.tokens import LETTERS
from tests.lines import NOW, Family

MINUTE = dt.timedelta(minutes=1)
#: addresses of the block for documentation, RFC 5737
HOME, NEXT_DOOR = "192.0.2.1", "192.0.2.2"


def code_for(family: Family, *roles: str) -> str:
    people = [uuid.UUID(family.people[role]) for role in roles]
    return phones.make_code(family.household, people, now=NOW).code


def claim(code: str, at: dt.datetime = NOW, address: str = HOME) -> phones.LetIn:
    return phones.claim_code(code, "New phone", address=address, now=at)


def wrong(code: str) -> str:
    """The same code with its last character mistyped."""
    return code[:-1] + LETTERS[(LETTERS.index(code[-1]) + 1) % len(LETTERS)]


def test_a_code_has_8_characters_nobody_confuses(family: Family) -> None:
    for _ in range(20):
        code = code_for(family, "adult")
        assert len(code) == 8
        assert not set(code) & set("OIL01")
    assert not PairingCode.everywhere.filter(code_hash__contains=code).exists()


def test_a_code_lets_one_phone_in_with_the_people_it_was_made_for(family: Family) -> None:
    let_in = claim(code_for(family, "adult", "child"))
    assert let_in.device.people == [family.people["adult"], family.people["child"]]
    assert phones.devices_of([let_in.token])[let_in.token] == let_in.device
    assert (let_in.device.code_to - let_in.device.code_from, let_in.device.name) == (39, "New phone")


def test_the_token_is_kept_hashed_only(family: Family) -> None:
    """invariant 38"""
    let_in = claim(code_for(family, "adult"))
    kept = Device.everywhere.filter(pk=let_in.device.pk).values().get()
    assert let_in.token not in str(kept)
    assert len(let_in.token) == 43
    assert phones.devices_of(["x" * 43]) == {}


def test_a_code_is_typed_in_any_case_with_blanks_and_dashes(family: Family) -> None:
    code = code_for(family, "adult")
    assert claim(f" {code[:4].lower()}-{code[4:]} ").device


def test_a_code_is_used_once(family: Family) -> None:
    code = code_for(family, "adult")
    claim(code)
    with pytest.raises(CannotDo, match="used already") as caught:
        claim(code)
    assert caught.value.code == "code_spent"


def test_a_code_lives_10_minutes(family: Family) -> None:
    late, in_time = code_for(family, "adult"), code_for(family, "adult")
    assert claim(in_time, NOW + 10 * MINUTE - dt.timedelta(seconds=1))
    with pytest.raises(CannotDo, match="older than 10 minutes"):
        claim(late, NOW + 10 * MINUTE)


def test_five_wrong_tries_spend_the_code(family: Family) -> None:
    """Counted in the database, from whatever addresses they come."""
    code = code_for(family, "adult")
    for left in (4, 3, 2, 1):
        with pytest.raises(CannotDo, match="does not fit") as caught:
            claim(wrong(code), address=f"192.0.2.{left}")
        assert (caught.value.code, caught.value.facts) == ("code_wrong", {"left": left})
    with pytest.raises(CannotDo, match="Five wrong tries") as caught:
        claim(wrong(code))
    assert caught.value.code == "code_spent"
    with pytest.raises(CannotDo, match="Five wrong tries"):
        claim(code, address=NEXT_DOOR)


def test_guessing_at_random_ends_at_its_address(family: Family) -> None:
    code = code_for(family, "adult")
    for _ in range(phones.TRIES_AT_ADDRESS):
        with pytest.raises(CannotDo, match="does not fit"):
            claim("ZZZZ2222" if not code.startswith("ZZZ") else "YYYY2222")
    with pytest.raises(CannotDo, match="Too many wrong codes") as caught:
        claim(code)
    assert caught.value.facts == {"retry_after": 600}
    assert claim(code, address=NEXT_DOOR)
    assert WrongTry.objects.count() == phones.TRIES_AT_ADDRESS


def test_an_address_may_try_again_after_10_minutes(family: Family) -> None:
    for _ in range(phones.TRIES_AT_ADDRESS):
        WrongTry.objects.create(address_hash=phones.token_hash(HOME), at=NOW)
    code = code_for(family, "adult")
    with pytest.raises(CannotDo, match="Too many"):
        claim(code)
    assert claim(code_later(family), NOW + 11 * MINUTE)
    assert not WrongTry.objects.exists()


def code_later(family: Family) -> str:
    people = [uuid.UUID(family.people["adult"])]
    return phones.make_code(family.household, people, now=NOW + 10 * MINUTE).code


@pytest.mark.parametrize("typed", ["", "ABC", "ABCDEFGHJ", "ABCDEFG"])
def test_a_code_of_another_length_is_told_and_costs_no_try(family: Family, typed: str) -> None:
    with pytest.raises(CannotDo, match="8 characters"):
        claim(typed)
    assert not WrongTry.objects.exists()


@pytest.mark.parametrize(
    ("roles", "allowed"),
    [
        (["adult", "child"], True),
        (["keeper", "adult", "rounds", "child"], True),
        (["child"], True),
        (["rounds", "child"], True),
        (["child", "adult"], False),
        (["rounds", "keeper"], False),
        (["minder"], True),
        (["adult", "minder"], False),
        (["minder", "child"], False),
    ],
)
def test_only_grown_peoples_phones_list_other_grown_people(
    family: Family, roles: list[str], allowed: bool
) -> None:
    if allowed:
        assert code_for(family, *roles)
        return
    with pytest.raises(CannotDo) as caught:
        code_for(family, *roles)
    assert caught.value.code == "people_on_phone"


def test_a_code_names_people_of_the_household(family: Family) -> None:
    """invariant 36"""
    from tests.lines import make_family

    stranger = uuid.UUID(make_family("Nether End").people["child"])
    for people in ([stranger], [uuid.uuid4()], []):
        with pytest.raises(CannotDo) as caught:
            phones.make_code(family.household, people, now=NOW)
        assert caught.value.code == "unknown_person"


def test_a_revoked_phone_is_revoked_once_and_in_its_own_household_only(family: Family) -> None:
    """invariant 36, invariant 37"""
    from tests.lines import make_family

    other = make_family("Nether End")
    device = family.phones["child"].device.pk
    for household, which in ((other.household, device), (family.household, uuid.uuid4())):
        with pytest.raises(CannotDo) as caught:
            phones.revoke(household, which, now=NOW)
        assert caught.value.code == "unknown_device"
    phones.revoke(family.household, device, now=NOW)
    assert Device.everywhere.get(pk=device).revoked_at == NOW
    with pytest.raises(CannotDo):
        phones.revoke(family.household, device, now=NOW)


def test_who_may_write_on_a_phone_can_be_set_anew(family: Family) -> None:
    device = family.phones["adult"].device.pk
    people = [uuid.UUID(family.people[role]) for role in ("adult", "child")]
    phones.list_people(family.household, device, people)
    assert Device.everywhere.get(pk=device).people == [str(one) for one in people]
    with pytest.raises(CannotDo) as caught:
        phones.list_people(family.household, device, people[::-1])
    assert caught.value.code == "people_on_phone"
    with pytest.raises(CannotDo) as caught:
        phones.list_people(family.household, uuid.uuid4(), people)
    assert caught.value.code == "unknown_device"


def test_a_phone_signed_out_is_known_no_more(family: Family) -> None:
    phone = family.phones["adult"]
    phones.sign_out(phone.device)
    assert phones.devices_of([phone.token]) == {}
    assert Device.everywhere.filter(pk=phone.device.pk).exists()


def test_when_a_phone_was_seen_is_written_once_a_minute(family: Family) -> None:
    device = family.phones["adult"].device
    device.last_seen = None
    assert phones.note_seen(device, NOW)
    assert not phones.note_seen(device, NOW + MINUTE / 2)
    assert phones.note_seen(device, NOW + MINUTE)
    device.refresh_from_db()
    assert device.last_seen == NOW + MINUTE
