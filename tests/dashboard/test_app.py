"""The page in its shell."""

from dataclasses import replace

from panel.io.resources import Resources

from dashboard.app import page

EVIL = '"><script>alert(1)</script>'


def test_a_site_s_name_is_text_in_the_page_s_head(weigh, study, monkeypatch, tmp_path):
    monkeypatch.setattr(study, "site", replace(study.site, name=EVIL))
    shell = page(weigh)
    file = tmp_path / "page.html"
    shell.save(str(file), resources=Resources(mode="cdn"))
    head, _, _ = file.read_text(encoding="utf-8").partition("<body")
    assert "Treestead" in head
    assert EVIL not in head


def test_weights_stand_in_the_drawer(weigh):
    shell = page(weigh)
    assert list(shell.sidebar) == [weigh.weights.view]
    assert list(shell.main) == [weigh.main]
