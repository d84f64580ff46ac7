"""What is wrong with a catalogue file, said so that a grower can mend it."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One fault: where it is, what was found, what was expected and how to mend it."""

    file: str
    row: int
    field: str
    found: str
    expected: str
    mend: str

    def __str__(self) -> str:
        place = f"{self.file}, row {self.row}" if self.row else self.file
        return (
            f"{place}, {self.field}: found {self.found}, "
            f"expected {self.expected}, mend by {self.mend}"
        )


class CatalogueFaults(ValueError):  # noqa: N818 - it is the faults, all of them at once
    """Every fault of the catalogue files at once."""

    def __init__(self, faults: list[Fault]) -> None:
        super().__init__(faults)
        self.faults = tuple(faults)

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)
