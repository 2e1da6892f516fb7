"""Photos by their hash: taken in as raw bytes, served as drawn anew, within one household only."""

from __future__ import annotations

from typing import IO, Any, cast

from django.http import HttpResponse, HttpResponseBase
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework.parsers import BaseParser
from rest_framework.request import Request
from rest_framework.response import Response

from api import shapes
from api.base import View
from api.problems import Problem
from api.sign_in import SignedIn, device_of
from homestead.photos.actions import PhotoRefused, take_in
from homestead.photos.names import HASH
from homestead.photos.reads import photo_bytes

THUMB = OpenApiParameter("size", str, description="`thumb` for the small one", enum=["thumb"])


class RawBytes(BaseParser):
    """Leaves the stream alone, whatever the phone says it is: what it is, its bytes tell."""

    media_type = "*/*"

    def parse(self, stream: IO[bytes], media_type: object = None, parser_context: object = None) -> Any:
        return stream


class PhotoView(View):
    """`PUT` keeps a photo under the hash of its bytes, as often as it is sent; `GET` serves it."""

    permission_classes = (SignedIn,)
    parser_classes = (RawBytes,)

    @extend_schema(
        operation_id="put_photo",
        request={"image/jpeg": OpenApiTypes.BINARY, "image/png": OpenApiTypes.BINARY},
        responses={200: shapes.Done, 201: shapes.Done},
    )
    def put(self, request: Request, sha256: str) -> Response:
        _checked(sha256)
        try:
            new = take_in(device_of(request).household_id, sha256, cast(IO[bytes], request._request))
        except PhotoRefused as refusal:
            raise Problem(refusal.code, refusal.sentence) from None
        return Response({"done": True}, 201 if new else 200)

    @extend_schema(
        operation_id="get_photo", parameters=[THUMB], responses={(200, "image/jpeg"): OpenApiTypes.BINARY}
    )
    def get(self, request: Request, sha256: str) -> HttpResponseBase:
        thumb = request.query_params.get("size") == "thumb"
        found = photo_bytes(device_of(request).household_id, _checked(sha256), thumb=thumb)
        if found is None:
            raise Problem("not_found", "This household has no such photo.")
        return HttpResponse(
            found,
            content_type="image/jpeg",
            headers={
                "Cache-Control": "private, max-age=31536000, immutable",
                "Content-Disposition": 'inline; filename="photo.jpg"',
                "Content-Security-Policy": "sandbox; default-src 'none'",
                "X-Content-Type-Options": "nosniff",
            },
        )


def _checked(sha256: str) -> str:
    if not HASH.fullmatch(sha256):
        raise Problem("not_found", "A photo is named by the 64 hexadecimal digits of its SHA-256.")
    return sha256
