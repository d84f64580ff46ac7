"""What can be planted: one cultivar on one rootstock."""

from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Option:
    """A cultivar of a species on a rootstock."""

    species: str
    cultivar: str
    rootstock: str

    @property
    def label(self) -> str:
        """How a grower writes it.

        >>> Option("apple", "Bramley", "MM106").label
        'Bramley on MM106'
        """
        return f"{self.cultivar} on {self.rootstock}"
