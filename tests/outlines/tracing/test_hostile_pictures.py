"""Pictures that are odd, broken or made to harm: each is traced, or refused in words."""

import io

import numpy as np
import pikepdf
import pytest
from PIL import Image

from service.craft.tracing import CannotTrace, TracingAsked
from tests.outlines.tracing.drawn import encode
from workers.outlines.tracing import trace_picture


def square(side=300):
    """A black square of half the side in the middle of white paper."""
    values = np.full((side, side), 255, dtype=np.uint8)
    values[side // 4 : -side // 4, side // 4 : -side // 4] = 0
    return Image.fromarray(values)


def saved(image, form="PNG", **how):
    out = io.BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def trace(data, **more):
    return trace_picture(TracingAsked(data, "odd", **({"dpi": 100} | more))).file


def palette():
    """Black on a transparent paper whose hidden colour is black too."""
    image = Image.new("P", (300, 300), 0)
    image.putpalette([0, 0, 0, 10, 10, 10])
    image.paste(1, (75, 75, 225, 225))
    return saved(image, transparency=0)


def clear():
    image = Image.new("RGBA", (300, 300), (0, 0, 0, 0))
    image.paste((20, 20, 20, 255), (75, 75, 225, 225))
    return saved(image)


def light_and_clear():
    image = Image.new("RGBA", (300, 300), (255, 255, 255, 0))
    image.paste((255, 255, 255, 255), (75, 75, 225, 225))
    return saved(image)


ODD = {
    "white on transparent": light_and_clear,
    "sixteen bits": lambda: saved(Image.fromarray(np.asarray(square(), dtype=np.uint16) * 257)),
    "one bit": lambda: saved(square().convert("1")),
    "CMYK": lambda: saved(square().convert("RGB").convert("CMYK"), "JPEG", quality=95),
    "palette with transparency": palette,
    "transparent paper": clear,
    "animated": lambda: saved(square(), save_all=True, append_images=[Image.new("L", (300, 300))] * 2),
}


@pytest.mark.parametrize("kind", ODD)
def test_odd_kinds_of_pictures_are_traced(kind):
    """The square of 150 pixels at 100 dots an inch is 38.1 mm wide; of an animation the first picture counts."""
    [shape] = trace(ODD[kind]()).shapes
    assert (shape.width_mm, shape.height_mm) == pytest.approx((38.1, 38.1), abs=0.1)


REFUSED = {
    "cut short JPEG": (lambda: saved(square(), "JPEG")[:-400], "damaged or cut short"),
    "cut short PNG": (
        lambda: encode(np.random.default_rng(1).integers(0, 255, (200, 200), np.uint8))[:-900],
        "cut",
    ),
    "one pixel": (lambda: saved(Image.new("L", (1, 1))), "1 x 1 pixels"),
    "all white": (lambda: saved(Image.new("L", (300, 300), 255)), "nothing in the picture is clearly darker"),
    "all black": (lambda: saved(Image.new("L", (300, 300), 0)), "nothing in the picture is clearly darker"),
    "noise": (
        lambda: encode(np.random.default_rng(1).integers(0, 255, (900, 900), np.uint8)),
        "nothing in the picture is clearly darker",
    ),
}


@pytest.mark.parametrize("kind", REFUSED)
def test_what_cannot_be_traced_is_refused_in_words(kind):
    """With the field of the form, and what would be right."""
    make, words = REFUSED[kind]
    with pytest.raises(CannotTrace, match=words) as refused:
        trace(make())
    [fault] = refused.value.faults
    assert fault.pointer == "/file"
    assert fault.right


def pdf(change):
    document = pikepdf.new()
    document.add_blank_page(page_size=(300, 300))
    out = io.BytesIO()
    document.save(out, **(change(document) or {}))
    return out.getvalue()


def no_pages(document):
    del document.pages[0]


def locked(_):
    return {"encryption": pikepdf.Encryption(owner="gate", user="key")}


def huge(document):
    document.pages[0].mediabox = [0, 0, 14_400, 14_400]


def tiny(document):
    document.pages[0].mediabox = [0, 0, 3, 3]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (no_pages, "no page|cannot be read"),
        (locked, "cannot be read"),
        (huge, "5,080 x 5,080 mm"),
        (tiny, "pixels"),
        (lambda _: None, "nothing in the picture is clearly darker"),
    ],
)
def test_pdfs_that_give_nothing_are_refused(change, words):
    """No page, a password, a page of five metres, one of a millimetre, a blank one."""
    with pytest.raises(CannotTrace, match=words) as refused:
        trace(pdf(change), dpi=None)
    assert refused.value.faults[0].right


def test_light_parts_on_a_transparent_ground_are_said_to_be_missing():
    """A square with a white half: the dark half is traced, and a note tells of the light one."""
    image = Image.new("RGBA", (300, 300), (0, 0, 0, 0))
    image.paste((20, 20, 20, 255), (75, 75, 225, 225))
    image.paste((255, 255, 255, 255), (75, 75, 150, 225))
    file = trace(saved(image))
    assert file.shapes[0].width_mm == pytest.approx(38.1 / 2, abs=0.1)
    assert any("50% of it" in note for note in file.notes), file.notes
