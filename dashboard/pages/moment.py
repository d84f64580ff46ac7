"""The study as it stands at one moment: what several parts of the page ask, asked once."""

from model.study import Study


class Moment:
    """What holds at the study's place: the options there, and each slider's tipping points.

    `tips` by factor name or 'family:' and a family; empty where nothing can stand.
    """

    def __init__(self, study: Study) -> None:
        self.study = study
        self.here = study.here()
        standing = self.here.allowed.size > 0
        self.tips = {block: study.tipping(block) for block in study.blocks} if standing else {}

    def label(self, standing: int) -> str:
        """Label of an option by its number in the order of merit, as tipping points count."""
        return self.study.options[self.here.allowed[standing]].label
