"""A form made from a list of fields, usable by keyboard and screen reader, safe with any text."""

from base64 import b64decode, b64encode
from binascii import Error
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from model.language import _
from model.survey.attribute import Attribute, Required

HERE = Path(__file__).parent
Field = dict[str, Any]


class Form(JSComponent):
    """Fields from top to bottom. `told(name, value)` is called when one is filled in or pressed."""

    key = param.String(
        default="", doc="Which form it is; what is being typed outlives the same one."
    )
    fields = param.List(default=[], doc="The fields as plain values.")
    words = param.Dict(default={}, doc="Words of the form.")

    _esm = HERE / "survey_form.js"
    _stylesheets = [(HERE / "survey_form.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, told: Callable[[str, Any], None], **settings: Any) -> None:
        words = {"required": _("needed")}
        wide = {"sizing_mode": "stretch_width", "margin": 0}
        super().__init__(**{"words": words, **wide, **settings})
        self._told = told

    def fill(self, key: str, fields: Iterable[Field]) -> None:
        """Show these fields, sent only when something about them changed."""
        fields = list(fields)
        if key != self.key:
            self.param.update(key=key, fields=fields)
        elif fields != self.fields:
            self.fields = fields

    def download(self, name: str, data: bytes) -> None:
        """Hand the visitor a file."""
        self._send_msg({"name": name, "data": b64encode(data).decode("ascii")})

    def _handle_msg(self, data: Any) -> None:
        name = data.get("name")
        if isinstance(name, str):
            self._told(name, data.get("value"))


def heading(label: str) -> Field:
    """A heading."""
    return {"kind": "heading", "label": label}


def subheading(label: str) -> Field:
    """A heading within."""
    return {"kind": "subheading", "label": label}


def note(label: str, tone: str = "note") -> Field:
    """A sentence; `tone` is note, help, bad or caution."""
    return {"kind": "note", "label": label, "tone": tone}


def buttons(name: str, *items: tuple[str, str] | Mapping[str, Any]) -> Field:
    """A row of buttons, each (id, label) or with more about it."""
    rows = [
        {"id": one[0], "label": one[1]} if isinstance(one, tuple) else dict(one) for one in items
    ]
    return {"kind": "buttons", "name": name, "items": rows}


def main_button(ident: str, label: str, disabled: bool = False) -> Mapping[str, Any]:
    """The button that one most likely wants."""
    return {"id": ident, "label": label, "tone": "main", "disabled": disabled}


def area(name: str, label: str, value: str, **more: Any) -> Field:
    """A field of several lines."""
    return {"kind": "area", "name": name, "label": label, "value": value, **more}


def table(
    label: str, columns: Iterable[str], rows: Iterable[Iterable[str]], name: str = ""
) -> Field:
    """A table, to be filled in where it has a name; the first cell of a row heads it."""
    items = [list(row) for row in rows]
    return {"kind": "table", "label": label, "columns": list(columns), "items": items, "name": name}


def choice(
    name: str, label: str, choices: Iterable[tuple[str, str]], value: str, **more: Any
) -> Field:
    """A choice of one."""
    pairs = [list(one) for one in choices]
    return {
        "kind": "choice",
        "name": name,
        "label": label,
        "choices": pairs,
        "value": value,
        **more,
    }


def upload(name: str, label: str, accept: str, limit: int, help_: str) -> Field:
    """A file from the visitor."""
    more = {"accept": accept, "limit": limit, "help": help_}
    return {"kind": "file", "name": name, "label": label, **more}


def uploaded(value: Any, limit: int) -> tuple[str, bytes]:
    """Name and content of a file that was sent; ValueError in words when it cannot be taken."""
    if not isinstance(value, Mapping) or not isinstance(value.get("name"), str):
        raise ValueError(_("That was no file."))  # noqa: TRY004 -- said to the visitor, as all faults
    name, size = value["name"], value.get("size")
    most = _("{name}: found {size} MB, expected at most {most} MB, mend by making it smaller")
    if not (isinstance(size, int | float) and size > limit):
        try:
            data = b64decode(str(value.get("data", "")), validate=True)
        except (Error, ValueError) as error:
            raise ValueError(_("That was no file.")) from error
        if len(data) <= limit:
            return name, data
        size = len(data)
    raise ValueError(
        most.format(name=name[:60], size=f"{float(size or 0) / 1e6:.1f}", most=f"{limit / 1e6:g}")
    )


def attribute_field(attribute: Attribute, value: Any, fault: str = "", prefix: str = "") -> Field:
    """The field of an attribute: its label, unit, bounds, choices and meaning."""
    label = words_of(attribute)
    field: Field = {
        "name": prefix + attribute.name,
        "label": label,
        "value": "" if value is None else plain(value),
        "required": isinstance(attribute.default, Required),
        "fault": fault,
        "help": help_of(attribute),
    }
    if attribute.choices:
        blank = [] if isinstance(attribute.default, str) and attribute.default else [["", "–"]]
        pairs = [*blank, *([one, one] for one in attribute.choices)]
        shown = field["value"] or (attribute.default if isinstance(attribute.default, str) else "")
        return {**field, "kind": "choice", "choices": pairs, "value": shown}
    return {**field, "kind": "number" if attribute.is_number else "text"}


def words_of(attribute: Attribute) -> str:
    """An attribute's name in words, with its unit.

    >>> words_of(Attribute("full_height_m", "m", 1.0, 0, 9))
    'Full height [m]'
    """
    name = attribute.name
    for ending in ("_percent", "_deg", "_cm", "_m", "_l"):
        name = name.removesuffix(ending)
    text = name.replace("_", " ").replace("plus minus", "plus-minus")
    text = text[:1].upper() + text[1:]
    return f"{text} [{attribute.unit}]" if attribute.unit else text


def help_of(attribute: Attribute) -> str:
    """What an attribute means, its bounds, and what it is when left blank."""
    parts = [attribute.meaning]
    if attribute.is_number:
        parts.append(f"{attribute.low:g} to {attribute.high:g}")
    default = attribute.default
    told = not isinstance(default, Required) and default == default and default != ""  # noqa: PLR0124 -- NaN
    if told and not attribute.choices:
        parts.append(_("left blank: {value}").format(value=plain(default)))
    return "; ".join(part for part in parts if part)


def plain(value: Any) -> str:
    """A value as one would type it.

    >>> plain(4.0), plain(0.25), plain("oak")
    ('4', '0.25', 'oak')
    """
    if isinstance(value, float):
        return "" if value != value else repr(round(value, 6)).removesuffix(".0")  # noqa: PLR0124 -- NaN
    return str(value)
