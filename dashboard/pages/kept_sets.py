"""Weights kept under a name, in the visitor's own copy of the folder."""

from dashboard.pages.weights import Weights
from dashboard.session import Session
from model.language import _
from model.opening import STUDY_FILE, with_weight_sets
from model.study import Study
from model.study_file import study_file_text
from model.survey.faults import SurveyFaults


def kept_set(session: Session, weights: Weights) -> tuple[str, str]:
    """Keep the present weights as the set that was named; its name and what became of it.

    Only the sets of study.toml change: the weights that the folder begins with stay as they are.
    """
    name = (weights.name.value_input or weights.name.value or "").strip()
    about = (weights.about.value_input or weights.about.value or "").strip()
    if not name:
        return "", _("Give the weights a name first.")
    study: Study = session.study
    study.save_weight_set(name, about)
    visit = _("Kept for this visit only.")
    if session.copy is None:
        return name, visit
    try:
        text = study_file_text(with_weight_sets(session.copy.folder, study))
    except SurveyFaults as error:
        return name, f"{visit} {error}"
    if not session.keep(STUDY_FILE, text):
        return name, visit
    return name, _("Kept as {name}, in your own copy of the folder.").format(name=name)
