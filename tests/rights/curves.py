"""Finds curves in any file of a release, and says how like a given outline each is: wherever, however large or turned.

Unlikeness: both curves in 96 equal steps, moved to their middle and scaled to one; then over every starting point,
turn, direction and mirror image the best agreement (the peak of the circular cross-correlation of complex numbers),
and of that the largest distance between two points. The same curve comes to less than 0.001, a stitched one to 0.044;
the leaf of the tests and a circle to 0.095. Of an edge that shows in part, stretches are looked for at their own size.
"""

import io
import json
import re
import zipfile

import ezdxf
import numpy as np
import pikepdf
import shapely
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from lxml import etree

from workers.stitches.reading import read_stitch_file
from workers.stitches.record import STITCH, STOP

STEPS = 96
LIKE = 0.06
THUMBNAIL_MM = 15.0
CLOSED = 0.06
LEAST_POINTS = 8
MM_PER_POINT = 25.4 / 72


def resample(points):
    """A closed curve in equal steps, as complex numbers round its middle, of unit size."""
    points = np.asarray(points, dtype=float)
    if np.hypot(*(points[0] - points[-1])) > 0:
        points = np.vstack([points, points[:1]])
    lengths = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(lengths)])
    at = np.linspace(0, along[-1], STEPS, endpoint=False)
    z = np.interp(at, along, points[:, 0]) + 1j * np.interp(at, along, points[:, 1])
    z -= z.mean()
    return z / np.linalg.norm(z)


def unlikeness(one, other):
    """How far apart two closed curves lie at most where they agree best, in shares of the first one's radius."""
    a = resample(one)
    spectrum, z = np.fft.fft(a), resample(other)
    best = (-1.0, None)
    for way in (z, z[::-1], z.conj(), z.conj()[::-1]):
        peaks = np.fft.ifft(spectrum * np.fft.fft(way).conj())
        shift = int(np.abs(peaks).argmax())
        if abs(peaks[shift]) > best[0]:
            best = (abs(peaks[shift]), peaks[shift] * np.roll(way, shift))
    return float(np.abs(a - best[1]).max() / np.abs(a).max())


def size(points):
    return float(np.ptp(np.asarray(points), axis=0).max())


def find_like(outline, curves):
    """Closed curves larger than a thumbnail that are like the outline, with how unlike."""
    found = []
    for name, points in curves:
        points = np.asarray(points, dtype=float)
        wide = size(points) if len(points) >= LEAST_POINTS else 0.0
        if wide > THUMBNAIL_MM and np.hypot(*(points[0] - points[-1])) <= CLOSED * wide:
            value = unlikeness(outline, points)
            if value < LIKE:
                found.append((name, round(value, 4), round(wide, 1)))
    return found


STEP_MM = 0.5
STRETCH_MM = 30.0
BENT_MM = 0.7
FOLLOWS_MM = 0.2


def windows(points, *, closed):
    """Every bent stretch of a curve, 30 mm long, in even steps, as complex numbers round its middle."""
    points = np.asarray(points, dtype=float)
    if closed and np.hypot(*(points[0] - points[-1])) > 0:
        points = np.vstack([points, points[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    at = np.arange(0, along[-1], STEP_MM)
    z = np.interp(at, along, points[:, 0]) + 1j * np.interp(at, along, points[:, 1])
    count = round(STRETCH_MM / STEP_MM)
    if len(z) < count:
        return np.zeros((0, count), dtype=complex)
    found = np.lib.stride_tricks.sliding_window_view(np.concatenate([z, z[:count]]) if closed else z, count)
    found = found - found.mean(axis=1, keepdims=True)
    # squares of the deviation from the best straight line: the lesser eigenvalue of what the points spread
    spread, turned = (np.abs(found) ** 2).mean(axis=1), np.abs((found**2).mean(axis=1))
    return found[np.sqrt(np.maximum(spread - turned, 0) / 2) > BENT_MM]


def find_stretches(edge, curves):
    """Stretches of 30 mm of an open edge, or of a parallel to it, that a curve follows at the same size.

    Both are turned onto each other as well as can be, mirrored too; then the mean square between their points counts.
    """
    line = shapely.LineString(edge)
    parallels = [line, *(line.offset_curve(by) for by in (1, -1, 3, -3, 6, -6))]
    parts = [part for parallel in parallels for part in shapely.get_parts(parallel)]
    known = np.concatenate([windows(part.coords, closed=False) for part in parts])
    known = np.concatenate([known, known.conj(), known[:, ::-1], known[:, ::-1].conj()])
    power = (np.abs(known) ** 2).sum(axis=1)
    found = []
    for name, points in curves:
        ours = windows(points, closed=len(points) > 2 and np.allclose(points[0], points[-1], atol=0.01))
        apart = (
            power[:, None] + (np.abs(ours) ** 2).sum(axis=1) - 2 * np.abs(known @ ours.conj().T)
        ) / known.shape[1]
        if apart.size and apart.min() < FOLLOWS_MM**2:
            found.append((name, round(float(np.sqrt(max(apart.min(), 0.0))), 3)))
    return found


def read_curves(name, data):
    """Every curve of a file as (name, points in mm); nothing for a kind of file that has none."""
    ending = name.rpartition(".")[2]
    reader = {
        "svg": read_svg,
        "dxf": read_dxf,
        "pdf": read_pdf,
        "dst": read_dst,
        "json": read_json,
        "zip": read_zip,
    }
    return reader[ending](name, data) if ending in reader else []


def read_zip(name, data):
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        return [c for info in packed.infolist() for c in read_curves(info.filename, packed.read(info))]


def read_svg(name, data):
    """Paths and polygons; one drawing unit is one millimetre in every drawing of ours."""
    root, found = etree.fromstring(data), []
    for node in root.iter():
        if node.get("d"):
            found += [(name, points) for points in _trace(node.get("d"))]
        if node.get("points"):
            numbers = [float(n) for n in re.findall(r"-?[\d.]+", node.get("points"))]
            found.append((name, np.array(numbers).reshape(-1, 2)))
    return found


def _trace(data):
    """The subpaths of SVG path data, as a library of typefaces reads it."""
    pen, paths = RecordingPen(), []
    parse_path(data, pen)
    for kind, points in pen.value:
        if kind == "moveTo":
            paths.append([points[0]])
        elif kind == "lineTo":
            paths[-1].append(points[0])
        elif kind == "curveTo":
            paths[-1] += _flatten_cubic(paths[-1][-1], points, "c")
        elif kind == "closePath":
            paths[-1].append(paths[-1][0])
    return [points for points in paths if len(points) >= LEAST_POINTS]


def read_dxf(name, data):
    drawing, found = ezdxf.read(io.StringIO(data.decode())), []
    for entity in drawing.modelspace():
        if entity.dxftype() in ("LWPOLYLINE", "POLYLINE", "SPLINE", "CIRCLE", "ARC", "ELLIPSE"):
            path = ezdxf.path.make_path(entity)
            found.append((name, [(p.x, p.y) for p in path.flattening(0.05)]))
    return found


def read_dst(name, data):
    """Every run of stitches between stops and jumps: the placement line and the tack-down follow the edge."""
    reading, found, run = read_stitch_file(data), [], []
    for kind, point in zip(reading.kinds, reading.points_mm, strict=True):
        if kind == STITCH:
            run.append(point)
        elif kind == STOP or run:
            found, run = [*found, (name, run)], []
    return [(n, points) for n, points in [*found, (name, run)] if len(points) >= LEAST_POINTS]


def read_json(name, data):
    """Lists of pairs of numbers, and drawings, however deep."""
    found = []

    def walk(value):
        if isinstance(value, list):
            pairs = [v for v in value if isinstance(v, list) and len(v) == 2]
            if len(pairs) == len(value) >= LEAST_POINTS and all(
                isinstance(x, int | float) for v in pairs for x in v
            ):
                found.append((name, pairs))
            for inner in value:
                walk(inner)
        elif isinstance(value, dict):
            for inner in value.values():
                walk(inner)
        elif isinstance(value, str) and value.startswith("<svg"):
            found.extend(read_svg(name, value.encode()))

    walk(json.loads(data))
    return found


def read_pdf(name, data):
    """Every subpath of every page and of every form drawn on one, in mm on the paper."""
    found = []
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            _read_stream(page, page.get("/Resources"), np.eye(3) * 1.0, found, name, 0)
    return found


def _read_stream(content, resources, matrix, found, name, depth):
    stack, path = [], []
    for operands, operator in pikepdf.parse_content_stream(content):
        op = str(operator)
        n = [float(x) for x in operands] if op in ("m", "l", "c", "v", "y", "re", "cm") else []
        if op == "q":
            stack.append(matrix)
        elif op == "Q" and stack:
            matrix = stack.pop()
        elif op == "cm":
            matrix = np.array([[n[0], n[1], 0], [n[2], n[3], 0], [n[4], n[5], 1]]) @ matrix
        elif op == "m":
            path.append([n])
        elif op == "l" and path:
            path[-1].append(n)
        elif op in ("c", "v", "y") and path:
            path[-1] += _flatten_cubic(path[-1][-1], n, op)
        elif op == "h" and path and path[-1]:
            path[-1].append(path[-1][0])
        elif op in ("f", "F", "f*", "S", "s", "B", "b", "B*", "b*", "n"):
            for points in path:
                if len(points) >= LEAST_POINTS:
                    laid = np.column_stack([np.array(points), np.ones(len(points))]) @ matrix
                    found.append((name, laid[:, :2] * MM_PER_POINT))
            path = []
        elif op == "Do" and depth < 6:
            form = (resources or {}).get("/XObject", {}).get(str(operands[0]))
            if form is not None and form.get("/Subtype") == "/Form":
                own = np.array([float(x) for x in form.get("/Matrix", [1, 0, 0, 1, 0, 0])]).reshape(3, 2)
                inner = np.column_stack([own, [0, 0, 1]]) @ matrix
                _read_stream(form, form.get("/Resources", resources), inner, found, name, depth + 1)


def _flatten_cubic(start, n, op):
    ends = [start, *np.array(n).reshape(-1, 2).tolist()]
    if op == "v":
        ends.insert(1, start)
    elif op == "y":
        ends.append(ends[-1])
    t = np.linspace(0, 1, 17)[1:, None]
    a, b, c, d = (np.array(p) for p in ends)
    return ((1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d).tolist()
