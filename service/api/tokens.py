"""Keys to the API: the maker makes and revokes them."""

from __future__ import annotations

from typing import Any

from flask import Response
from sqlalchemy import or_, select

from service.api.access import Circle, known_caller
from service.api.paging import format_time, page_answer, read_page
from service.api.problems import Problem, fault, refuse_one
from service.api.room import Answer, Room
from service.api.schemas.common import PageQuery
from service.api.schemas.tokens import MadeToken, NewToken, TokenPage
from service.api.wiring import now, parts
from service.storage.models import Role, Token
from service.studio.keys import add_token, make_secret, revoke

room = Room("tokens", __name__, description="Keys to this API, one a person or program.")


@room.route_to("/tokens", "POST", Circle.MAKER, Answer(201, MadeToken), body=NewToken)
def make_token(body: dict[str, Any]) -> Any:
    """Make a key.

    The answer holds its secret, which cannot be asked for again.
    """
    moment = now()
    if body["expires"] is not None and body["expires"] <= moment:
        raise refuse_one("The key would have expired already.", "a moment to come", pointer="/expires")
    secret = make_secret()
    with parts().database.writing() as session:
        token = add_token(
            session,
            name=body["name"],
            role=Role(body["role"]),
            secret=secret,
            now=moment,
            expires=body["expires"],
        )
    headers = {"Location": f"/api/v1/tokens/{token.id}", "Cache-Control": "no-store"}
    return {**show_token(token), "secret": secret}, headers


@room.route_to("/tokens", "GET", Circle.MAKER, Answer(200, TokenPage), query=PageQuery)
def list_tokens(query: dict[str, Any]) -> Any:
    """List the keys that are good, without their secrets."""
    good = select(Token).where(
        Token.revoked_at.is_(None), or_(Token.expires_at.is_(None), Token.expires_at > now())
    )
    with parts().database.reading() as session:
        rows, cursor = read_page(session, good, Token.id, query)
    return page_answer("tokens", rows, show_token, cursor)


@room.route_to("/tokens/<id_>", "DELETE", Circle.MAKER, Answer(204), refuses=(404, 409))
def revoke_token(id_: str) -> Any:
    """Revoke a key. It is worth nothing from then on."""
    if known_caller().token_id == id_:
        detail = "This is the key that you are using; revoke it with another one."
        raise Problem(409, detail, name="in-use", errors=[fault(detail, "another maker's key")])
    with parts().database.writing() as session:
        if not revoke(session, id_, now=now()):
            raise Problem(404, f"There is no key with the id {id_}.")
    return Response(status=204)


def show_token(token: Token) -> dict[str, Any]:
    """A key as it stands in an answer."""
    return {
        "id": token.id,
        "name": token.name,
        "role": token.role,
        "created": format_time(token.created_at),
        "expires": format_time(token.expires_at),
        "last_used": format_time(token.last_used_at),
    }
