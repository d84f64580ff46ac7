"""The report on paper, opened by pypdf, a reader that shares nothing with what wrote it."""

from datetime import date
from io import BytesIO

import pypdf
import pytest

from dashboard.__main__ import main
from dashboard.report import NO_PRINTER, Brief, document, findings, folder_plan, pdf
from dashboard.report.brief import PARTS
from dashboard.report.printing import by_browser, by_weasyprint
from model.opening import open_study
from tests.model.demo import DEMO

SOUTH = DEMO.parent / "sallowbend"
# Points of 1/72 inch: ISO 216 (A4 210 x 297 mm) and ANSI/ASME Y14.1 (Letter 8.5 x 11 in).
PAPER = {"A4": (595.3, 841.9), "Letter": (612.0, 792.0)}
PRINTERS = {"weasyprint": by_weasyprint, "browser": by_browser}
SHORT = ("calendar", "sources", "assumptions")  # left out to keep the tests quick


@pytest.fixture(scope="module")
def found():
    study = open_study(SOUTH)
    return findings(study, folder_plan(study, SOUTH), date(2026, 11, 25))


def printed(name, html):
    made = PRINTERS[name](html)
    if made is None:
        pytest.skip(f"{name} is not on this machine")
    return pypdf.PdfReader(BytesIO(made))


@pytest.mark.parametrize(("name", "paper"), [("weasyprint", "A4"), ("browser", "Letter")])
def test_both_printers_give_the_whole_report_on_the_paper_asked_for(found, name, paper):
    brief = Brief(prepared_for="Ann & Sons <b>", paper=paper, left_out=SHORT)
    paged = printed(name, document(found, brief))
    text = " ".join(" ".join(page.extract_text().split()) for page in paged.pages)
    assert 5 < len(paged.pages) < 25
    for page in paged.pages:
        assert [float(page.mediabox.width), float(page.mediabox.height)] == pytest.approx(
            PAPER[paper], abs=1.0
        )
    assert "Ann & Sons <b>" in text
    for tree in found.plan.placement.trees:
        assert tree.name in text
        assert f"{tree.x:.2f} m" in text
    assert "Signature" in text


def test_the_pdf_is_tagged_numbered_and_named(found):
    paged = printed("weasyprint", document(found, Brief(title="Plan of Äpfel", left_out=SHORT)))
    root = paged.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert paged.metadata.title == "Plan of Äpfel"
    last = len(paged.pages)
    assert f"Page {last} of {last}" in paged.pages[-1].extract_text()
    assert [one.title for one in paged.outline if not isinstance(one, list)]


def test_the_head_of_a_long_table_is_repeated_on_every_page(found):
    html = document(found, Brief(left_out=tuple(one for one in PARTS if one != "calendar")))
    paged = printed("weasyprint", html)
    texts = [page.extract_text() for page in paged.pages]
    long = [text for text in texts if "How, cautions, source" in text]
    assert len(long) > 2


def test_without_a_printer_it_is_said_how_to_print(monkeypatch):
    monkeypatch.setattr("dashboard.report.printing.by_weasyprint", lambda _html: None)
    monkeypatch.setattr("dashboard.report.printing.browser", lambda: None)
    with pytest.raises(ValueError, match="Save as PDF"):
        pdf("<p>words</p>")


def test_the_command_writes_both_files(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr("dashboard.commands.report.pdf", lambda html: b"%PDF" + html[:9].encode())
    told = ["--for", "The school", "--paper", "Letter", "--feet", "--on", "2026-11-25"]
    assert main(["report", str(SOUTH), "--out", str(tmp_path / "out"), *told]) == 0
    html = (tmp_path / "out" / "report.html").read_text(encoding="utf-8")
    assert "The school" in html
    assert "size: letter" in html
    assert "25 November 2026" in html
    assert (tmp_path / "out" / "report.pdf").read_bytes().startswith(b"%PDF")
    assert capsys.readouterr().out.count("report.") == 2


def test_the_command_without_a_printer_writes_html_and_says_so(tmp_path, monkeypatch, capsys):
    def none(_html):
        raise ValueError(NO_PRINTER)

    monkeypatch.setattr("dashboard.commands.report.pdf", none)
    assert main(["report", str(SOUTH), "--out", str(tmp_path)]) == 0
    assert "Save as PDF" in capsys.readouterr().out
    assert not (tmp_path / "report.pdf").exists()


def test_the_command_names_what_is_wrong(tmp_path, capsys):
    missing = str(tmp_path / "none.csv")
    assert main(["report", str(SOUTH), "--out", str(tmp_path), "--placement", missing]) == 2
    bad = tmp_path / "placement.csv"
    bad.write_text("spot,x_m,y_m,species,cultivar,rootstock\nNowhere,9000,0,fig,X,Y\n")
    assert main(["report", str(SOUTH), "--out", str(tmp_path), "--placement", str(bad)]) == 1
    said = capsys.readouterr().err
    assert "placement.csv" in said
    assert "Nowhere" in said
