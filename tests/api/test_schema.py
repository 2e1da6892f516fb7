"""The OpenAPI document: valid by others' judgement, and what the server really answers."""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import hypothesis
import pytest
import schemathesis
import yaml
from django.conf import LazySettings
from django.core.management import call_command
from django.core.signals import request_finished, request_started
from django.core.wsgi import get_wsgi_application
from django.db import close_old_connections, transaction
from hypothesis import HealthCheck
from openapi_spec_validator import OpenAPIV31SpecValidator
from requests.structures import CaseInsensitiveDict
from schemathesis import GenerationMode, checks
from schemathesis.specs.openapi import checks as conformance

from homestead.ledger.kinds import all_kinds
from homestead.ledger.records import all_record_types
from tests.api.browser import Browser
from tests.lines import make_family

APPLICATION = get_wsgi_application()


@pytest.fixture(autouse=True)
def _small_house() -> None:
    """The real kinds here: the document is theirs."""


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    out = io.StringIO()
    call_command("spectacular", "--validate", "--fail-on-warn", stdout=out)
    found: dict[str, Any] = yaml.safe_load(out.getvalue())
    return found


def test_it_is_valid_openapi_3_1(document: dict[str, Any]) -> None:
    """Judged by openapi-spec-validator, against the OpenAPI Initiative's own JSON schema."""
    assert document["openapi"].startswith("3.1")
    found = [
        f"{list(one.absolute_path)}: {one.message}" for one in OpenAPIV31SpecValidator(document).iter_errors()
    ]
    assert found == []


def test_every_kind_has_a_line_and_a_body_of_its_own_name(document: dict[str, Any]) -> None:
    schemas = document["components"]["schemas"]
    line = schemas["WrittenLine"]
    assert line["discriminator"]["propertyName"] == "kind"
    assert line["discriminator"]["mapping"].keys() == all_kinds().keys() | {"edit"}
    for kind in all_kinds():
        name = "".join(part.title() for part in kind.split("_"))
        assert schemas[f"Written{name}"]["properties"]["kind"] == {"const": kind, "type": "string"}
        assert f"Body{name}" in schemas
    edits = schemas["BodyEdit"]["discriminator"]["mapping"]
    assert edits.keys() == all_record_types().keys()


def test_an_edit_sets_some_fields_and_must_set_none_of_them(document: dict[str, Any]) -> None:
    fields = document["components"]["schemas"]["SetSpace"]
    assert "required" not in fields
    assert fields["minProperties"] == 1
    assert fields["additionalProperties"] is False


def test_every_address_may_answer_with_a_problem(document: dict[str, Any]) -> None:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            content = operation["responses"]["default"]["content"]
            assert content.keys() == {"application/problem+json"}, (path, method)


def test_what_changes_something_says_that_it_needs_the_token(document: dict[str, Any]) -> None:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            named = {one["name"] for one in operation.get("parameters", ())}
            assert ("X-CSRFToken" in named) == (method != "get"), (path, method)


@pytest.fixture(scope="module")
def loaded(document: dict[str, Any]) -> Any:
    return schemathesis.openapi.from_dict(document)


@contextmanager
def one_connection() -> Iterator[None]:
    """Requests share the test's own connection, as with Django's test client (which connects these again)."""
    for signal in (request_started, request_finished):
        signal.disconnect(close_old_connections)
    yield
    for signal in (request_started, request_finished):
        signal.connect(close_old_connections)


OPERATIONS = [
    "csrf",
    "session",
    "pair",
    "make_code",
    "sign_out",
    "devices",
    "revoke",
    "list_people",
    "found_household",
    "open_demo",
    "leave_demo",
    "jobs",
    "open_minder_link",
    "minder_links",
    "make_minder_link",
    "end_minder_link",
    "push",
    "pull",
    "missing",
    "get_photo",
    "put_photo",
    "wishes",
    "wish",
    "make_calendar",
    "end_calendar",
    "push_on",
    "push_off",
    "calendar",
]
CHECKS = [
    checks.not_a_server_error,
    conformance.status_code_conformance,
    conformance.content_type_conformance,
    conformance.response_headers_conformance,
    conformance.response_schema_conformance,
]


def test_requests_are_made_of_every_operation(document: dict[str, Any]) -> None:
    found = {one["operationId"] for methods in document["paths"].values() for one in methods.values()}
    # a keeper's phone is told no by `minder`: tests/family asks for it as a minder's
    assert found == {*OPERATIONS, "minder"}


@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE])
@pytest.mark.parametrize("name", OPERATIONS)
def test_answers_are_as_the_document_says(
    db: None, settings: LazySettings, loaded: Any, name: str, mode: GenerationMode
) -> None:
    """Requests made from the document by schemathesis, right ones and wrong ones; judged by it too."""
    settings.ALLOWED_HOSTS = ["localhost"]
    family = make_family("Invented", demo=True)
    browser = Browser(family.phones["keeper"])
    headers = {"Host": "localhost", "X-CSRFToken": browser.token}
    cookies = {key: one.value for key, one in browser.client.cookies.items()}
    operation = loaded.find_operation_by_id(name)
    tried: Counter[int] = Counter()

    @hypothesis.settings(
        max_examples=8,
        deadline=None,
        database=None,
        derandomize=True,
        suppress_health_check=list(HealthCheck),
    )
    @hypothesis.given(case=operation.as_strategy(generation_mode=mode))
    def ask(case: schemathesis.Case) -> None:
        case.headers = CaseInsensitiveDict(headers)
        case.cookies = {}
        if mode is GenerationMode.POSITIVE and "person" in case.path_parameters:
            # a stranger is told no before anything else is looked at
            case.path_parameters["person"] = family.people["keeper"]
        response = case.call(app=APPLICATION, cookies=cookies, environ_base={"REMOTE_ADDR": "127.0.0.1"})
        tried[response.status_code] += 1
        case.validate_response(response, checks=CHECKS)

    with one_connection(), transaction.atomic():
        ask()
        transaction.set_rollback(True)
    assert sum(tried.values()) > 0
    assert set(tried) != {403}, "the CSRF token was not taken: nothing was tried"
