"""A sketch checked against all that it must agree with: the rules of the files, the catalogue."""

from dataclasses import replace

from model.survey.attribute import Wrong
from model.survey.editing import Sketch
from model.survey.faults import Fault, shown
from model.survey.sketch_faults import FILE, Checked, checked_sketch
from model.trees import Catalogue, neighbour


def judged_sketch(sketch: Sketch, catalogue: Catalogue) -> Checked:
    """The site a sketch makes with every fault by its mark, species the catalogue lacks too."""
    checked = checked_sketch(sketch)
    faults = dict(checked.faults)
    for mark in sketch.marks:
        unknown = _unknown(catalogue, mark.id, mark.fields.get("species"))
        if unknown:
            faults[mark.id] = (*faults.get(mark.id, ()), *unknown)
    return replace(checked, faults=faults)


def _unknown(catalogue: Catalogue, number: int, species: object) -> list[Fault]:
    faults = []
    for name in str(species or "").split(";"):
        try:
            if name.strip():
                neighbour(catalogue, name)
        except ValueError:
            known = ", ".join(catalogue.neighbours())
            wrong = Wrong(shown(name.strip()), f"one of {known}", "choosing one of those")
            faults.append(Fault(FILE, number, "species", *wrong))
    return faults
