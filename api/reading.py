"""Reads requests: JSON up to a size, and its shape."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import IO, Any, NoReturn, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError
from rest_framework.exceptions import ParseError
from rest_framework.parsers import BaseParser
from rest_framework.request import Request

from api.problems import Problem
from homestead.ledger.kinds import leave_out_defaults
from homestead.ledger.misfits import refusal_of

#: no request but a photo is larger; a push is at most 200 lines of this together
MOST_BYTES = 512 * 1024


class Asked(BaseModel):
    """Base of what a request holds: nothing unknown, nothing coerced."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, json_schema_extra=leave_out_defaults)


A = TypeVar("A", bound=Asked)


class BoundedJSON(BaseParser):
    """JSON in UTF-8, read no further than the limit: what is larger costs no memory."""

    media_type = "application/json"

    def parse(
        self,
        stream: IO[bytes],
        media_type: str | None = None,
        parser_context: Mapping[str, Any] | None = None,
    ) -> Any:
        read = stream.read(MOST_BYTES + 1)
        if len(read) > MOST_BYTES:
            raise Problem("too_large", most=MOST_BYTES)
        try:
            return json.loads(read.decode(), parse_constant=_no_constant)
        except (ValueError, RecursionError) as broken:
            raise ParseError from broken


def _no_constant(name: str) -> NoReturn:
    raise ValueError(f"{name} is not JSON")


def read(request: Request, shape: type[A], *, apart: str = "") -> A:
    """The request's body in its shape. Raises a problem that says what does not fit, and where.

    A long list that is judged elsewhere is left `apart`: only that it is a list is judged here.
    """
    asked = request.data
    if apart and isinstance(asked, dict) and isinstance(asked.get(apart), list):
        asked = asked | {apart: []}
    try:
        return shape.model_validate_json(json.dumps(asked))
    except ValidationError as misfit:
        problem = refusal_of(misfit)
        raise Problem("bad_request", problem.message, **problem.facts) from misfit
