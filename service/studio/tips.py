"""The maker's tips before and after steps: kept through later batches, flagged where their step changed or went."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from service.craft.tracks import Track
from service.storage.models import Project, Tip

EVERY_TRACK = ""
"""The track of a tip that stands in every track which has its step."""

Texts = Mapping[str, Sequence[str]]
"""The computed texts of every step by its id: one in a track, perhaps several in all of them."""


def show_tips(
    session: Session, project: Project, track: Track, own: Texts, everywhere: Texts
) -> list[dict[str, Any]]:
    """The tips of a track and of every track; `gone` where no step is left to stand beside.

    A tip for every track is judged by the steps of all of them: that this track lacks the step is no fault.
    """
    return [
        _show(tip, everywhere if tip.track == EVERY_TRACK else own) for tip in _tips(session, project, track)
    ]


def find_strange(
    session: Session, project: Project, track: Track, tips: Sequence[Mapping[str, Any]], own: Texts
) -> list[tuple[int, str]]:
    """The places of tips for steps that the track does not have and that no kept tip names, with those steps."""
    kept = {tip.step_id for tip in _tips(session, project, track)}
    return [
        (i, tip["step"]) for i, tip in enumerate(tips) if tip["step"] not in own and tip["step"] not in kept
    ]


def keep_tips(
    session: Session,
    project: Project,
    track: Track,
    tips: Sequence[Mapping[str, Any]],
    own: Texts,
    *,
    now: datetime,
) -> None:
    """Keep one tip a place, before or after a step; others stay, and null or nothing takes one away."""
    for entry in tips:
        name = EVERY_TRACK if entry["every_track"] else track.name
        key = (project.id, name, entry["step"], entry["place"])
        kept, text = session.get(Tip, key), (entry["text"] or "").strip()
        if not text:
            if kept is not None:
                session.delete(kept)
                session.flush()
            continue
        if kept is None:
            kept = Tip(project_id=key[0], track=key[1], step_id=key[2], place=key[3], computed_text="")
            session.add(kept)
        kept.text, kept.updated_at = text, now
        kept.computed_text = next(iter(own.get(entry["step"], ())), kept.computed_text)
        session.flush()


def _tips(session: Session, project: Project, track: Track) -> list[Tip]:
    query = select(Tip).where(
        Tip.project_id == project.id, or_(Tip.track == track.name, Tip.track == EVERY_TRACK)
    )
    return list(session.scalars(query.order_by(Tip.step_id, Tip.place.desc(), Tip.track)))


def _show(tip: Tip, texts: Texts) -> dict[str, Any]:
    now = texts.get(tip.step_id, ())
    return {
        "step": tip.step_id,
        "place": tip.place,
        "text": tip.text,
        "every_track": tip.track == EVERY_TRACK,
        "written_beside": tip.computed_text,
        "changed_since": bool(now) and tip.computed_text not in now,
        "gone": not now,
    }
