"""`batchbee bench`: what the computing parts make of problems in files, with how long it takes."""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

import click

from workers.cutting.cloth_file import ClothFileError, read_cloth_file
from workers.cutting.least import least_strips, simple_strips
from workers.cutting.strip_check import check_strips
from workers.cutting.strip_problem import Problem, Strips, total_length

# The simple plan may take so much more cloth than the tight one, in hundredths.
SIMPLE_MORE = 2
# What the simple plan may take beside the seconds for the tight one.
SIMPLE_SECONDS = 1.0


@click.group()
def bench() -> None:
    """Measure the computing parts on problems in files."""


@dataclass(frozen=True)
class Measured:
    """What came out for one cloth; lengths in the file's own units, `seconds` for the tight plan."""

    name: str
    length: int
    lower_bound: int
    proved: bool
    gap: float
    per_size_rule: int
    fit_rule: int
    strips: int
    mixed: int
    seconds: float
    simple_length: int
    simple_strips: int
    simple_mixed: int


@bench.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="One JSON object a file and line.")
@click.option(
    "--seconds", default=5.0, show_default=True, type=click.FloatRange(min=0), help="For each cloth."
)
def cloth(files: tuple[Path, ...], as_json: bool, seconds: float) -> None:
    """Cut cloths out of the least length. Each file has a width and sizes (w, h, demand, turn) in whole units.

    Ends with 1 if a file cannot be read or a plan does not stand its check; the other files are done all the same.
    """
    done: list[Measured] = []
    failed = False
    if not as_json:
        click.echo(_HEAD)
    for file in files:
        try:
            measured = _measure(file, seconds)
        except (OSError, UnicodeDecodeError, ClothFileError) as fault:
            failed = True
            for line in _faults(fault):
                click.echo(f"{file}: {line}", err=True)
            continue
        done.append(measured)
        click.echo(json.dumps(asdict(measured)) if as_json else _line(measured))
    if done and not as_json:
        click.echo(_summary(done))
    if failed:
        raise click.exceptions.Exit(1)


def _faults(fault: Exception) -> Iterable[str]:
    if isinstance(fault, ClothFileError):
        return fault.faults
    if isinstance(fault, UnicodeDecodeError):
        return ["not text in UTF-8"]
    return [str(getattr(fault, "strerror", None) or fault)]


def _measure(file: Path, seconds: float) -> Measured:
    read = read_cloth_file(file.read_text(encoding="utf-8"))
    problem = read.problem
    start = time.perf_counter()
    least = least_strips(problem, seconds=seconds, left=_left(seconds))
    took = time.perf_counter() - start
    length = total_length(least.strips)
    most = length * (100 + SIMPLE_MORE) // 100
    briefly = min(seconds, SIMPLE_SECONDS)
    simple = simple_strips(problem, least, most_length=most, seconds=briefly, left=_left(briefly))
    for plan in (least.strips, simple, least.by_size, least.by_fit):
        _stand(problem, plan)
    return Measured(
        name=read.name or file.stem,
        length=length,
        lower_bound=least.lower_bound,
        proved=least.proved,
        gap=round((length - least.lower_bound) / least.lower_bound, 6),
        per_size_rule=total_length(least.by_size),
        fit_rule=total_length(least.by_fit),
        strips=len(least.strips),
        mixed=_mixed(least.strips),
        seconds=round(took, 4),
        simple_length=total_length(simple),
        simple_strips=len(simple),
        simple_mixed=_mixed(simple),
    )


def _left(seconds: float) -> Callable[[], float]:
    """How much is left of so many seconds from now."""
    end = time.perf_counter() + seconds
    return lambda: end - time.perf_counter()


def _stand(problem: Problem, strips: Strips) -> None:
    """Nothing is printed of a plan that cannot be cut."""
    wrong = check_strips(problem, strips)
    if wrong:
        raise ClothFileError([f"a plan does not stand its check: {line}" for line in wrong])


def _mixed(strips: Strips) -> int:
    return sum(len(strip.runs) - 1 for strip in strips)


_HEAD = (
    f"{'cloth':20s} {'length':>9s} {'bound':>9s} {'':6s} {'by size':>9s} {'by fit':>9s} {'strips':>6s} {'mixed':>5s}"
    f" {'simple':>9s} {'strips':>6s} {'mixed':>5s} {'seconds':>8s}"
)


def _line(m: Measured) -> str:
    sure = "proved" if m.proved else f"{100 * m.gap:.2f} %"
    return (
        f"{m.name[:20]:20s} {m.length:9d} {m.lower_bound:9d} {sure:6s} {m.per_size_rule:9d} {m.fit_rule:9d}"
        f" {m.strips:6d} {m.mixed:5d} {m.simple_length:9d} {m.simple_strips:6d} {m.simple_mixed:5d} {m.seconds:8.3f}"
    )


def _summary(done: list[Measured]) -> str:
    by_size = statistics.mean(1 - m.length / m.per_size_rule for m in done)
    by_fit = statistics.mean(1 - m.length / m.fit_rule for m in done)
    gap = statistics.mean(m.gap for m in done)
    times = [m.seconds for m in done]
    return (
        f"{len(done)} cloths: {sum(m.proved for m in done)} proved; gap to the bound {gap:.3%} in the mean\n"
        f"less than strips size by size {by_size:.2%}, less than the better fit rule {by_fit:.2%} in the mean\n"
        f"{statistics.median(times):.3f} s in the median, {max(times):.3f} s at most"
    )
