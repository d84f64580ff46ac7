"""Staking: how long a rootstock needs a stake, as the catalogue has it."""

import re
from dataclasses import dataclass

from model.language import _
from model.study import Study

USUAL_YEARS = 2  # of a stake that is taken out again (common practice, no source)
TIES = {True: 2, False: 1}  # on a tall stake that stays, on a short one (common practice)


@dataclass(frozen=True)
class Staking:
    """A tree's stake: whether it stays for good, else after how many years it may go.

    `words` and `source` are the catalogue's own; `years` is None where the stake stays.
    """

    years: int | None
    words: str
    source: str

    @property
    def stays(self) -> bool:
        """Whether the tree leans on it for life."""
        return self.years is None

    @property
    def sort(self) -> str:
        """Which stake to buy."""
        return "permanent" if self.stays else "short"

    @property
    def ties(self) -> int:
        """Ties on it."""
        return TIES[self.stays]


def staking(study: Study, option: int) -> Staking:
    """The staking of an option of the study; a tree without a word on it gets a short stake."""
    tree = study.options[option]
    value = study.catalogue.value("rootstocks", (tree.rootstock, tree.species), "stake")
    if value is None:
        return Staking(
            USUAL_YEARS, _("the catalogue does not say"), _("common practice, no source")
        )
    words = str(value.value)
    source = study.catalogue.citation(value)
    if "permanent" in words:
        return Staking(None, words, source)
    years = [int(number) for number in re.findall(r"\d+", words)]
    return Staking(max(years, default=USUAL_YEARS), words, source)
