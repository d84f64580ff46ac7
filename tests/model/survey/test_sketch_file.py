"""A sketch with faults is kept as it is drawn."""

import pytest

from model.survey.editing import sketch_of
from model.survey.sketch_file import sketch_from, sketch_text
from tests.model.demo import demo_study


def marked(kind, points):
    fields = f'"kind": "{kind}", "fields": {{}}, "points": {points}, "holes": [], "name": ""'
    return f'{{"marks": [{{{fields}}}]}}'


def test_a_sketch_comes_back_as_it_was():
    site = demo_study().site
    sketch = sketch_of(site).added(
        "neighbour_tree", ((4.0, 5.5),), "half known", {"height_m": "tall"}
    )
    back = sketch_from(sketch_text(sketch), site)
    assert [(one.kind, one.name, one.points, one.fields, one.holes) for one in back.marks] == [
        (one.kind, one.name, one.points, one.fields, one.holes) for one in sketch.marks
    ]


@pytest.mark.parametrize(
    "text",
    ["", "[]", marked("dragon", "[]"), marked("tap", '[[1, "x"]]'), marked("tap", "[[1e999, 2]]")],
)
def test_a_file_that_holds_no_sketch_is_said(text):
    with pytest.raises(ValueError, match=r"sketch\.json"):
        sketch_from(text, demo_study().site)
