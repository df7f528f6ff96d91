"""Materials: the cloth, thread and notions the studio owns."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from flask import Response, request
from sqlalchemy import select

from service.api.access import Circle
from service.api.bodies import read_object
from service.api.checking import check_body
from service.api.merging import merge_patch
from service.api.paging import format_time, page_answer, read_page
from service.api.room import Answer, Room
from service.api.schemas.common import PageQuery
from service.api.schemas.materials import MaterialBody, MaterialPage, MaterialSchema
from service.api.tags import check_tag, found, set_tag
from service.api.wiring import now, parts
from service.storage.models import Material
from service.storage.times import uuid7

room = Room("materials", __name__, description="The cloth, thread and notions the studio owns.")


@room.route_to("/materials", "GET", Circle.STUDIO, Answer(200, MaterialPage), query=PageQuery)
def list_materials(query: dict[str, Any]) -> Any:
    """List what the studio owns, oldest entry first."""
    with parts().database.reading() as session:
        rows, cursor = read_page(session, select(Material), Material.id, query)
    return page_answer("materials", rows, show_material, cursor)


@room.route_to(
    "/materials", "POST", Circle.STUDIO, Answer(201, MaterialSchema), body=MaterialBody, tagged=True
)
def add_material(body: dict[str, Any]) -> Any:
    """Enter something the studio owns."""
    moment = now()
    with parts().database.writing() as session:
        material = Material(id=uuid7(moment), created_at=moment, updated_at=moment, revision=1)
        _write(material, body)
        session.add(material)
    set_tag(room, material)
    return show_material(material), {"Location": f"/api/v1/materials/{material.id}"}


@room.route_to(
    "/materials/<id_>", "GET", Circle.STUDIO, Answer(200, MaterialSchema), tagged=True, refuses=(404,)
)
def get_material(id_: str) -> Any:
    """Show one material."""
    with parts().database.reading() as session:
        material = found(session.get(Material, id_), "material", id_)
    set_tag(room, material)
    return show_material(material)


@room.route_to(
    "/materials/<id_>",
    "PUT",
    Circle.STUDIO,
    Answer(200, MaterialSchema),
    body=MaterialBody,
    tagged=True,
    refuses=(404,),
)
def put_material(body: dict[str, Any], id_: str) -> Any:
    """Replace an entry."""
    return _change(id_, lambda _material: body)


@room.route_to(
    "/materials/<id_>",
    "PATCH",
    Circle.STUDIO,
    Answer(200, MaterialSchema),
    tagged=True,
    refuses=(400, 404, 415, 422),
    requestBody={"content": {"application/merge-patch+json": {"schema": {"type": "object"}}}},
)
def patch_material(id_: str) -> Any:
    """Change some fields of an entry: a JSON merge patch (RFC 7396)."""
    patch = read_object(request)
    return _change(id_, lambda kept: check_body(MaterialBody, merge_patch(_fields(kept), patch)))


@room.route_to("/materials/<id_>", "DELETE", Circle.MAKER, Answer(204), tagged=True, refuses=(404,))
def delete_material(id_: str) -> Any:
    """Delete an entry."""
    with parts().database.writing() as session:
        material = found(session.get(Material, id_, with_for_update=True), "material", id_)
        check_tag(room, material)
        session.delete(material)
    return Response(status=204)


def _change(id_: str, change: Callable[[Material], dict[str, Any]]) -> Any:
    with parts().database.writing() as session:
        material = found(session.get(Material, id_, with_for_update=True), "material", id_)
        check_tag(room, material)
        _write(material, change(material))
        material.revision += 1
        material.updated_at = now()
    set_tag(room, material)
    return show_material(material)


def _write(material: Material, body: dict[str, Any]) -> None:
    material.name, material.kind = body["name"], body["kind"]
    material.data = {name: value for name, value in body.items() if name not in ("name", "kind")}


def _fields(material: Material) -> dict[str, Any]:
    return {"name": material.name, "kind": material.kind, **material.data}


def show_material(material: Material) -> dict[str, Any]:
    """A material as it stands in an answer."""
    return {
        "id": material.id,
        **_fields(material),
        "revision": material.revision,
        "updated": format_time(material.updated_at),
    }
