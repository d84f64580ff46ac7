"""A photographed sketch or an aerial picture under the plan, fitted by two known points."""

import io
from base64 import b64encode
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from typing import Any

from PIL import Image, ImageFile, ImageOps

from dashboard.pages import survey_form as form
from dashboard.pages.survey_feature import corners
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_tapes import known_points
from dashboard.pages.survey_work import Work
from dashboard.plots.survey_plan import extent
from model.language import _
from model.survey.background import (
    FILE,
    PICTURES,
    Background,
    background_from,
    background_text,
    fitted_background,
)
from model.survey.measuring import Place

LARGEST = 6_000_000  # bytes as sent
MOST_PIXELS = 40_000_000
LONGEST_EDGE = 2000  # pixels kept
LONGEST_NAME = 60  # letters of a file's name that are said
FORMATS = {"PNG": PICTURES[0], "JPEG": PICTURES[1]}


class PicturePanel:
    """The picture, its two known points and how strongly it shows."""

    path = "picture"
    label = "Picture"
    key = "picture"

    def __init__(self, work: Work) -> None:
        self.work = work
        self.url, self.size = "", (1, 1)
        self.lie: Background | None = None
        self.picked: list[Place | None] = [None, None]
        self.stands = ["", ""]
        self.picking, self.wrong = -1, ""
        self._found()

    def _found(self) -> None:
        """Show the picture that the folder holds, if it holds one that can be read."""
        folder = self.work.session.folder
        if folder is None:
            return
        for file in (folder / name for name in PICTURES):
            if file.is_file() and file.stat().st_size <= LARGEST:
                with suppress(ValueError, OSError):
                    self._show(*plain_picture(file.read_bytes()))
                    self.lie = self._filling()
                    self.lie = background_from((folder / FILE).read_text(encoding="utf-8"))

    def _show(self, name: str, data: bytes, size: tuple[int, int]) -> None:
        kind = "png" if name.endswith("png") else "jpeg"
        self.url = f"data:image/{kind};base64,{b64encode(data).decode('ascii')}"
        self.size = size

    def _filling(self) -> Background:
        """The picture laid over all that is drawn, to begin with."""
        west, south, east, north = extent(self.work.sketch.marks)
        scale = max((east - west) / self.size[0], (north - south) / self.size[1])
        return Background((west, max(north, south + scale * self.size[1])), scale)

    @property
    def placed(self) -> list[float]:
        """How the picture lies, for the plan."""
        if self.lie is None:
            return []
        return [
            *self.lie.origin,
            self.lie.metres_a_pixel,
            self.lie.turn,
            self.lie.opacity,
            *self.size,
        ]

    def fields(self) -> list[Field]:
        """The form."""
        help_ = _("PNG or JPEG, at most {most} MB; it stays in your working copy").format(
            most=LARGEST // 10**6
        )
        shown = [
            form.heading(_("Picture under the plan")),
            form.note(_("A photographed sketch or an aerial picture that you may use.")),
            form.upload("file", _("Picture"), "image/png,image/jpeg", LARGEST, help_),
        ]
        if self.wrong:
            shown.append(form.note(self.wrong, "bad"))
        return shown + (self._fitting() if self.lie is not None else [])

    def _fitting(self) -> list[Field]:
        shown = [form.subheading(_("Scale and turn by two known points"))]
        for number in (0, 1):
            picked = self.picked[number] is not None
            label = (_("First point"), _("Second point"))[number]
            tap = _("Tap it on the picture") if not picked else _("Tapped; tap again")
            press = {
                "id": f"pick-{number}",
                "label": f"{label}: {tap}",
                "pressed": str(self.picking == number).lower(),
            }
            shown.append(form.buttons("act", press))
            help_ = _("a known point by name, or east, north in metres")
            field = {
                "kind": "text",
                "name": f"stands-{number}",
                "label": f"{label}: {_('stands at')}",
            }
            shown.append(
                {
                    **field,
                    "value": self.stands[number],
                    "help": help_,
                    "suggestions": list(known_points(self.work.sketch)),
                }
            )
        ready = all(self.picked) and all(self.stands)
        shown.append(form.buttons("act", form.main_button("fit", _("Fit the picture"), not ready)))
        opacity = self.lie.opacity if self.lie is not None else 0.6
        slider = {
            "kind": "range",
            "name": "opacity",
            "label": _("How strongly it shows"),
            "value": opacity,
        }
        shown.append({**slider, "low": 0, "high": 1, "step": 0.05})
        shown.append(form.buttons("act", ("remove", _("Remove the picture"))))
        return shown

    def told(self, name: str, value: Any) -> None:
        """Take what was filled in or pressed."""
        self.wrong = ""
        try:
            if name == "file":
                self._take(*form.uploaded(value, LARGEST))
            elif name in ("stands-0", "stands-1"):
                self.stands[int(name[-1])] = str(value).strip()
            elif name == "opacity" and self.lie is not None:
                self._lay(replace(self.lie, opacity=min(max(float(value), 0.0), 1.0)))
            elif name == "act":
                self._pressed(str(value))
        except (ValueError, TypeError) as error:
            self.wrong = str(error)
        self.work.told()

    def _take(self, file: str, data: bytes) -> None:
        try:
            name, data, size = plain_picture(data)
        except ValueError as error:
            raise ValueError(f"{file[:LONGEST_NAME]}: {error}") from error
        self._show(name, data, size)
        others = dict.fromkeys(PICTURES)
        self.work.session.keep_all({**others, name: data})
        self.picked, self.stands = [None, None], ["", ""]
        self._lay(self._filling())

    def _lay(self, lie: Background) -> None:
        self.lie = lie
        self.work.session.keep(FILE, background_text(lie))

    def _pressed(self, act: str) -> None:
        if act in ("pick-0", "pick-1"):
            self.picking = int(act[-1])
        elif act == "fit" and self.lie is not None:
            first, second = self.picked
            if first is None or second is None:
                return
            grounds = self._stands(0), self._stands(1)
            self._lay(fitted_background((first, second), grounds, self.lie.opacity))
            self.picked = [None, None]
        elif act == "remove":
            self.url, self.lie = "", None
            self.work.session.keep_all(dict.fromkeys((*PICTURES, FILE)))

    def _stands(self, number: int) -> Place:
        text = self.stands[number]
        known = known_points(self.work.sketch)
        return known[text] if text in known else corners(text)[0]

    def tapped(self, ground: Place) -> None:
        """A point of the picture was tapped."""
        if self.picking >= 0 and self.lie is not None:
            self.picked[self.picking] = self.lie.pixel(ground)
            self.picking = -1


@contextmanager
def _whole() -> Iterator[None]:
    """Loading that refuses half a picture, which the PDF printer's library lets through for all."""
    lenient = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient


def plain_picture(data: bytes) -> tuple[str, bytes, tuple[int, int]]:
    """Name, content and size of a picture made anew: upright, no larger than needed, nothing else.

    What a camera writes beside the picture, such as where it was taken, is left out. ValueError in
    words when it is no PNG or JPEG by its content or has too many pixels.
    """
    try:
        kind, pixels, picture = _opened(data)
        if picture is not None:
            picture.thumbnail((LONGEST_EDGE, LONGEST_EDGE))
            out = io.BytesIO()
            picture.save(out, kind, **({"quality": 82} if kind == "JPEG" else {"optimize": True}))
            return FORMATS[kind], out.getvalue(), picture.size
    except Image.DecompressionBombError as error:
        pixels = 2 * (Image.MAX_IMAGE_PIXELS or 0)  # beyond which Pillow does not even look
        raise ValueError(_too_large(f">{pixels // 10**6}")) from error
    except Exception as error:  # a damaged picture makes Pillow raise errors of any class
        raise ValueError(_("found a file that is no whole PNG or JPEG picture")) from error
    raise ValueError(_too_large(str(pixels // 10**6)))


def _too_large(pixels: str) -> str:
    said = _("found a picture of {found} million pixels, expected at most {most}")
    return said.format(found=pixels, most=MOST_PIXELS // 10**6)


def _opened(data: bytes) -> tuple[str, int, Image.Image | None]:
    """Format, number of pixels, and the picture upright; None when it has too many to unpack."""
    with Image.open(io.BytesIO(data), formats=list(FORMATS)) as raw:
        kind, pixels = str(raw.format), raw.size[0] * raw.size[1]
        if pixels > MOST_PIXELS:
            return kind, pixels, None
        with _whole():
            upright = ImageOps.exif_transpose(raw)
            return kind, pixels, upright.convert("RGBA" if kind == "PNG" else "RGB")
