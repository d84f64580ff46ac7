"""The client's document: one HTML file that asks for nothing outside, and the same as PDF."""

from dashboard.report.brief import PARTS, Brief, brief_text, read_brief
from dashboard.report.document import document
from dashboard.report.findings import Findings, Plan, findings, folder_plan
from dashboard.report.printing import NO_PRINTER, pdf

__all__ = [
    "NO_PRINTER",
    "PARTS",
    "Brief",
    "Findings",
    "Plan",
    "brief_text",
    "document",
    "findings",
    "folder_plan",
    "pdf",
    "read_brief",
]
