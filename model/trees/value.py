"""One catalogued value, and the source it came from."""

from dataclasses import dataclass

STATUSES = ("verified", "common", "memory")
"""verified: seen in the source named; common: common practice; memory: named, not checked."""

COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Value:
    """One value of one trait.

    `value` is a float for a number and a string for words; a list is words split by semicolons.
    `of` names whose value it is: the species, when a cultivar has none of its own.
    """

    value: float | str
    unit: str
    source: str
    status: str
    note: str
    of: str = ""

    @property
    def number(self) -> float:
        """The value as a number; NaN when it is words."""
        return self.value if isinstance(self.value, float) else float("nan")

    @property
    def words(self) -> tuple[str, ...]:
        """The value as a list of words."""
        return tuple(word.strip() for word in str(self.value).split(";") if word.strip())


@dataclass(frozen=True)
class Source:
    """Where values were read: its kind says how far to trust it."""

    name: str
    kind: str
    citation: str
    where: str
