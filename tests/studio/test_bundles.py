"""Several bundles in one."""

import io
import zipfile

from service.studio.bundles import join_bundles


def bundle(**files: str) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        for name, text in files.items():
            made.writestr(name, text)
    return out.getvalue()


def test_nothing_is_lost_or_mixed_up():
    """Each file comes back from its project's folder with its own bytes; alike titles are told apart."""
    joined = join_bundles([("Bean Row", bundle(a="1", b="2")), ("bean row", bundle(a="3"))])
    with zipfile.ZipFile(io.BytesIO(joined)) as whole:
        assert {name: whole.read(name) for name in whole.namelist()} == {
            "bean-row/a": b"1", "bean-row/b": b"2", "bean-row-2/a": b"3",
        }  # fmt: skip
        assert whole.testzip() is None


def test_the_same_bundles_make_the_same_bytes():
    """Whenever they were made: times inside do not go through."""
    one = [("Beans", bundle(a="1"))]
    assert join_bundles(one) == join_bundles(one)
    with zipfile.ZipFile(io.BytesIO(join_bundles(one))) as whole:
        assert whole.getinfo("beans/a").date_time == (1980, 1, 1, 0, 0, 0)
