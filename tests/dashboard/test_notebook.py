"""The same page displays in a notebook, without a server and without the network."""

import nbformat
import pytest
from nbclient import NotebookClient

from tests.model.demo import DEMO

OPEN = f"""
from dashboard.pages.weigh import Weigh
from dashboard.session import Session
from model.opening import open_study
weigh = Weigh(Session(open_study({str(DEMO)!r})))
"""
MOVE = """
before = weigh.here.sentence.object
weigh.weights.sliders._handle_msg({"id": "climate_fit", "value": 80, "settled": True})
print(weigh.here.sentence.object != before)
"""
CELLS = ("import panel as pn\npn.extension(inline=True)", OPEN, "weigh", MOVE)


@pytest.fixture(scope="module")
def outputs():
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in CELLS])
    root = str(DEMO.parents[1])
    NotebookClient(book, timeout=120, resources={"metadata": {"path": root}}).execute()
    return [cell.outputs for cell in book.cells]


def test_the_page_is_drawn_in_a_notebook(outputs):
    shown = [output.data for output in outputs[2] if "data" in output]
    html = "".join(data.get("text/html", "") for data in shown)
    assert "Sliders" in html
    assert html.count('"name":"Figure"') + html.count('"type":"object","name":"Figure"') >= 3
    assert "RankedRows" in html


def test_it_answers_there(outputs):
    assert outputs[3][0].text.strip() == "True"
