"""The report on paper: by weasyprint where its libraries are there, else by a browser."""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from model.language import _, marked

NO_PRINTER = marked(
    "No PDF: neither weasyprint nor a browser such as Chromium was found on this machine. Open the "
    "HTML file in any browser, choose Print, and there Save as PDF."
)
BROWSERS = (
    *("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"),
    *("microsoft-edge", "msedge"),
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
)
PATIENCE = 120  # s that a browser may take


def pdf(html: str) -> bytes:
    """The document as PDF. ValueError, in a sentence that says what to do, where nothing prints."""
    made = by_weasyprint(html)
    if made is None:
        made = by_browser(html)
    if made is None:
        raise ValueError(_(NO_PRINTER))
    return made


def by_weasyprint(html: str) -> bytes | None:
    """Tagged PDF (PDF/UA-1) by weasyprint; None where it or its libraries are not there."""
    try:
        import weasyprint  # noqa: PLC0415 -- it loads libraries that a machine may not have
        from weasyprint.urls import URLFetcher  # noqa: PLC0415 -- as above
    except (ImportError, OSError):
        return None
    inside = URLFetcher(allowed_protocols=("data",))  # nothing but what the document itself holds
    return weasyprint.HTML(string=html, url_fetcher=inside).write_pdf(pdf_variant="pdf/ua-1")


def by_browser(html: str) -> bytes | None:
    """PDF by the machine's Chromium, Chrome or Edge without a window; None where there is none."""
    found = browser()
    if found is None:
        return None
    with tempfile.TemporaryDirectory(prefix="treestead-") as folder:
        page, paper = Path(folder) / "report.html", Path(folder) / "report.pdf"
        page.write_text(html, encoding="utf-8")
        command = [
            found, "--headless", "--disable-gpu", "--no-pdf-header-footer",
            f"--user-data-dir={folder}/profile", f"--print-to-pdf={paper}", page.as_uri(),
        ]  # fmt: skip
        if sys.platform == "linux" and os.geteuid() == 0:
            command.insert(1, "--no-sandbox")  # its sandbox does not run for root
        try:
            subprocess.run(command, check=False, capture_output=True, timeout=PATIENCE)  # noqa: S603 -- found above
        except (OSError, subprocess.TimeoutExpired):
            return None
        return paper.read_bytes() if paper.is_file() else None


def browser() -> str | None:
    """The first browser found that can print."""
    return next((path for name in BROWSERS if (path := shutil.which(name))), None)
