"""How pydantic shapes become OpenAPI components, and what every address may answer besides."""

from __future__ import annotations

from typing import Any

from drf_spectacular.contrib.pydantic import PydanticExtension
from drf_spectacular.extensions import OpenApiAuthenticationExtension
from drf_spectacular.openapi import AutoSchema
from drf_spectacular.plumbing import ResolvedComponent
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter
from pydantic import BaseModel

from api import shapes
from api.problems import CONTENT_TYPE
from api.sign_in import COOKIE, HOUSEHOLD

REF = "#/components/schemas/{model}"

HOUSEHOLD_PARAMETER = OpenApiParameter(
    HOUSEHOLD,
    OpenApiTypes.UUID,
    OpenApiParameter.HEADER,
    description="Which household is meant, where this browser is signed in to several.",
)
CSRF_PARAMETER = OpenApiParameter(
    "X-CSRFToken", str, OpenApiParameter.HEADER, required=True, description="As in the cookie csrftoken."
)


class Shapes(PydanticExtension):  # type: ignore[no-untyped-call]
    """A field with a default need not be sent: the shapes of what is read hold for what is answered too."""

    target_class = "pydantic.BaseModel"
    match_subclasses = True
    priority = 1

    def map_serializer(self, auto_schema: AutoSchema, direction: str) -> dict[str, Any]:
        shape: type[BaseModel] = self.target
        schema: dict[str, Any] = _untitled(shape.model_json_schema(ref_template=REF, mode="validation"))
        for name, inner in schema.pop("$defs", {}).items():
            part = ResolvedComponent(name, ResolvedComponent.SCHEMA, inner, name)  # type: ignore[no-untyped-call]
            auto_schema.registry.register_on_missing(part)
        return schema


def _untitled(schema: Any) -> Any:
    """Without the titles pydantic makes of names: they say nothing the name does not."""
    if isinstance(schema, dict):
        return {
            name: _untitled(inner)
            for name, inner in schema.items()
            if not (name == "title" and isinstance(inner, str))
        }
    return [_untitled(inner) for inner in schema] if isinstance(schema, list) else schema


class DeviceScheme(OpenApiAuthenticationExtension):  # type: ignore[no-untyped-call]
    target_class = "api.sign_in.DeviceAuthentication"
    name = "device"

    def get_security_definition(self, auto_schema: Any) -> dict[str, str]:
        return {
            "type": "apiKey",
            "in": "cookie",
            "name": COOKIE,
            "description": "Token of the phone; what changes something needs X-CSRFToken beside it.",
        }


class Schema(AutoSchema):
    """Headers that every address takes."""

    def get_override_parameters(self) -> list[Any]:
        return [HOUSEHOLD_PARAMETER] if self.method == "GET" else [HOUSEHOLD_PARAMETER, CSRF_PARAMETER]


def answers_of_every_address(result: dict[str, Any], **_: Any) -> dict[str, Any]:
    """Whatever is asked may be answered by a problem."""
    schemas = result["components"]["schemas"]
    schemas["Problem"] = _untitled(shapes.Problem.model_json_schema(ref_template=REF))
    problem = {CONTENT_TYPE: {"schema": {"$ref": REF.format(model="Problem")}}}
    for methods in result["paths"].values():
        for operation in methods.values():
            operation["responses"]["default"] = {
                "description": "A problem: RFC 9457, with a code and facts.",
                "content": problem,
            }
    result["components"]["schemas"] = dict(sorted(schemas.items()))
    return result
