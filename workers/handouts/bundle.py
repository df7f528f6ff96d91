"""A track's bundle: every public file the track uses in one ZIP, with a manifest of names, sizes and sums."""

from __future__ import annotations

import hashlib
import json
import zipfile
from collections.abc import Iterable, Mapping
from io import BytesIO
from typing import Any

from service.craft.rights import find_unstated
from service.craft.tracks import Track
from workers.completeness import check_track, read_made
from workers.handouts.hoopings import check_hoopings, files_of_hooping, list_hoopings
from workers.handouts.inputs import Inputs
from workers.handouts.machine_files import check_cut_files, list_cut_files
from workers.recipe import CannotMake

FIXED_DATE = (1980, 1, 1, 0, 0, 0)
"""The earliest date a ZIP can name: the same bytes whenever it is made."""

UNIX, READABLE = 3, 0o644
"""What the attributes of an entry mean, and that everybody may read it once unpacked."""

MANIFEST = "manifest.json"

MOST_NAMED = 20
"""So many holes are named in one answer; the others are counted."""


def list_bundle_files(inputs: Inputs, track: Track) -> list[str]:
    """The names of all files that belong in the track's bundle, sorted; `CannotMake` where one is not there."""
    hoopings = list_hoopings(inputs, track)
    check_hoopings(inputs, track, hoopings)
    cut_files = list_cut_files(inputs, track)
    check_cut_files(inputs, track, cut_files)
    names = {f"handout-{track.slug}.pdf"}
    if inputs.project.needs_templates(track):
        names.add(f"templates-{track.slug}.pdf")
    names.update(cut_files.names)
    names.update(name for hooping in hoopings for name in files_of_hooping(hooping, inputs.project, track))
    for name in sorted(names):
        if name not in inputs.job.inputs:
            raise CannotMake(f"{name} is not there, and the bundle of the track {track.name} needs it")
    return sorted(names)


def pack_bundle(inputs: Inputs) -> bytes:
    """The bundle of the job's track as a ZIP, the same bytes for the same files."""
    track = inputs.track
    _check_sources(inputs)
    files = {name: inputs.job.inputs[name] for name in list_bundle_files(inputs, track)}
    _check_complete(inputs, track, files)
    manifest = describe_bundle(inputs.project.title, track.name, inputs.job.release, files)
    text = json.dumps(manifest, ensure_ascii=False, indent=2) + "\n"
    return _zip([(MANIFEST, text.encode()), *files.items()])


def _check_sources(inputs: Inputs) -> None:
    """Somebody says of every outline whose it is; `CannotMake` names the first that nobody does."""
    for fault in find_unstated(inputs.project.pieces, inputs.project.sources):
        raise CannotMake(fault.detail, pointer=fault.pointer, right=fault.right)


def _check_complete(inputs: Inputs, track: Track, files: Iterable[str]) -> None:
    """Nothing is missing on the track; `CannotMake` says everything that is, with the place of the first."""
    job = inputs.job
    findings = check_track(read_made(inputs.project, track, job.outlines, job.inputs, frozenset(files)))
    if findings:
        first, named = findings[0], findings[:MOST_NAMED]
        more = f" And {len(findings) - len(named)} more." if len(findings) > len(named) else ""
        listed = " ".join(
            f"({n}) {finding.detail}, at {finding.where}." for n, finding in enumerate(named, start=1)
        )
        raise CannotMake(
            f"the track {track.name} is not complete, and is not released: {listed}{more}",
            pointer=first.where,
            right=first.right,
        )


def describe_bundle(project: str, track: str, release: str, files: Mapping[str, bytes]) -> dict[str, Any]:
    """The manifest: project, track, release day and every file with its size and sha256."""
    return {
        "project": project,
        "track": track,
        "release": release,
        "files": [
            {"name": name, "size": len(data), "sha256": hashlib.sha256(data).hexdigest()}
            for name, data in files.items()
        ],
    }


def _zip(entries: Iterable[tuple[str, bytes]]) -> bytes:
    packed = BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for name, data in entries:
            info = zipfile.ZipInfo(name, FIXED_DATE)
            info.create_system = UNIX  # said outright, so that it is the same on every machine
            info.external_attr = READABLE << 16
            info.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(info, data)
    return packed.getvalue()
