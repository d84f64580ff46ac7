"""study.toml: the weights, curves and weight sets of a study, read and written."""

import os
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import tomli_w

from model.decision.desirability import Curve
from model.decision.power_mean import HIGHEST_EXPONENT, LOWEST_EXPONENT
from model.factors import FACTORS
from model.survey.faults import LONGEST_FOUND, Fault, SurveyFaults, nearest_name, shown, shown_name
from model.survey.folder import MOST_FAULTS, Folder
from model.survey.toml_text import toml_tables

TRADE_OFF = -1.0
MOST_SETS = 200
NAMES = tuple(factor.name for factor in FACTORS)
FIELDS = ("trade_off", "weights", "curves", "settings", "weight_sets")


@dataclass(frozen=True)
class WeightSet:
    """Weights kept under a name: share by factor, and the trade-off that goes with them."""

    name: str
    about: str
    weights: Mapping[str, float]
    trade_off: float = TRADE_OFF


@dataclass(frozen=True)
class StudyFile:
    """What study.toml says; empty parts leave the defaults as they are."""

    weights: Mapping[str, float] = field(default_factory=dict)
    trade_off: float = TRADE_OFF
    settings: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    weight_sets: tuple[WeightSet, ...] = ()


def read_study_file(path: Path) -> StudyFile:
    """The choices a study file holds; those of an empty file when there is none.

    Raises SurveyFaults with every fault of the file.
    """
    folder = Folder(path.parent)
    text = folder.text(path.name) if folder.present([path.name]) else None
    if folder.faults:
        raise SurveyFaults(folder.faults)
    reader = _Reader(path.name)
    try:
        table = toml_tables(text or "")
    except (ValueError, RecursionError) as error:
        found = str(error)[:LONGEST_FOUND]
        raise SurveyFaults(
            [reader.fault("", found, "TOML text", "correcting that line")]
        ) from error
    study = reader.study(table)
    if reader.faults:
        raise SurveyFaults(reader.faults)
    return study


def study_file_text(study: StudyFile) -> str:
    """A study file as it is written."""
    table: dict[str, Any] = {"trade_off": study.trade_off, "weights": dict(study.weights)}
    curves = {n: v["curve"] for n, v in study.settings.items() if "curve" in v}
    table["curves"] = {n: {"x": list(c.x), "y": list(c.y)} for n, c in curves.items()}
    figures = {n: {k: v for k, v in s.items() if k != "curve"} for n, s in study.settings.items()}
    table["settings"] = {name: values for name, values in figures.items() if values}
    table["weight_sets"] = [
        {"name": s.name, "about": s.about, "trade_off": s.trade_off, "weights": dict(s.weights)}
        for s in study.weight_sets
    ]
    return tomli_w.dumps(table)


def write_study_file(path: Path, study: StudyFile) -> None:
    """Write a study file whole or not at all; what stood there before is replaced."""
    with tempfile.NamedTemporaryFile("wb", dir=path.parent, prefix=".study", delete=False) as draft:
        draft.write(study_file_text(study).encode("utf-8"))
        draft.flush()
        os.fsync(draft.fileno())
    Path(draft.name).chmod(0o644)
    Path(draft.name).replace(path)


class _Reader:
    """Reads a parsed study file and notes every fault on the way."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[Fault] = []

    def fault(self, name: str, found: str, expected: str, mend: str) -> Fault:
        """Note one fault; SurveyFaults once there are more of them than anyone would read."""
        self.faults.append(Fault(self.file, None, shown_name(name), found, expected, mend))
        if len(self.faults) >= MOST_FAULTS:
            raise SurveyFaults(self.faults)
        return self.faults[-1]

    def study(self, table: dict[str, Any]) -> StudyFile:
        """The choices in a parsed file."""
        self._known(table, "", FIELDS)
        settings: dict[str, dict[str, Any]] = {}
        for name, curve in self._by_factor(table, "curves").items():
            read = self._curve(f"curves.{name}", curve)
            if read:
                settings.setdefault(name, {})["curve"] = read
        for name, figures in self._by_factor(table, "settings").items():
            settings.setdefault(name, {}).update(self._figures(name, figures))
        sets = table.get("weight_sets", [])
        if not isinstance(sets, list):
            self.fault(
                "weight_sets", shown(sets), "[[weight_sets]] tables", "doubling the brackets"
            )
            sets = []
        if len(sets) > MOST_SETS:
            found = f"{len(sets):,} weight sets"
            self.fault("weight_sets", found, f"at most {MOST_SETS}", "deleting some")
        return StudyFile(
            weights=self._weights(table, "weights"),
            trade_off=self._trade_off(table, "trade_off"),
            settings=settings,
            weight_sets=tuple(
                self._weight_set(s, f"weight_sets {n}") for n, s in enumerate(sets[:MOST_SETS], 1)
            ),
        )

    def _weight_set(self, table: Any, where: str) -> WeightSet:
        table = self._table({where: table}, where)
        self._known(table, where, ("name", "about", "trade_off", "weights"))
        name = table.get("name")
        if not isinstance(name, str) or not name:
            self.fault(f"{where}.name", shown(name), "a name", 'writing name = "Household", say')
        trade_off = self._trade_off(table, "trade_off", where)
        weights = self._weights(table, "weights", where)
        about = table.get("about", "")
        if not isinstance(about, str):
            self.fault(f"{where}.about", shown(about), "text", "writing it in quotation marks")
        name, about = (one if isinstance(one, str) else "" for one in (name, about))
        return WeightSet(name, about, weights, trade_off)

    def _weights(self, table: dict[str, Any], key: str, where: str = "") -> dict[str, float]:
        shares = self._by_factor(table, key, where)
        for name, share in shares.items():
            if not _is_number(share) or not 0 <= share <= 1e6:
                self.fault(
                    f"{key}.{name}", shown(share), "a share of 0 or more", "writing 0.2, say"
                )
                shares = {**shares, name: 0.0}
        if shares and not sum(shares.values()) > 0:
            self.fault(
                f"{where} {key}".strip(),
                "no share above 0",
                "some weight",
                "giving a factor a share",
            )
        return {name: float(share) for name, share in shares.items()}

    def _trade_off(self, table: dict[str, Any], key: str, where: str = "") -> float:
        value = table.get(key, TRADE_OFF)
        if _is_number(value) and LOWEST_EXPONENT <= value <= HIGHEST_EXPONENT:
            return float(value)
        bounds = f"a number from {LOWEST_EXPONENT:.0f} to {HIGHEST_EXPONENT:.0f}"
        self.fault(f"{where} {key}".strip(), shown(value), bounds, "writing -1.0, say")
        return TRADE_OFF

    def _curve(self, where: str, table: Any) -> Curve | None:
        try:
            x, y = (tuple(float(value) for value in table[axis]) for axis in "xy")
            return Curve(x, y)
        except (TypeError, KeyError, ValueError, ArithmeticError):
            mend = "giving each knot one of both"
            self.fault(where, shown(table), "x ascending and y from 0 to 1, as many", mend)
            return None

    def _figures(self, name: str, figures: Any) -> dict[str, Any]:
        table = self._table({name: figures}, name)
        known = next(f for f in FACTORS if f.name == name).settings()
        self._known(table, f"settings.{name}", tuple(known.figures()))
        read = {}
        for key, value in table.items():
            try:
                known.param.update(**{key: value})
                read[key] = value
            except (ValueError, TypeError) as error:
                self.fault(
                    f"settings.{name}.{key}", shown(value), str(error), "changing the figure"
                )
        return {key: value for key, value in read.items() if key in known.figures()}

    def _by_factor(self, table: dict[str, Any], key: str, where: str = "") -> dict[str, Any]:
        values = self._table(table, key)
        self._known(values, f"{where} {key}".strip(), NAMES)
        return {name: value for name, value in values.items() if name in NAMES}

    def _table(self, table: dict[str, Any], key: str) -> dict[str, Any]:
        value = table.get(key, {})
        if isinstance(value, dict):
            return value
        self.fault(key, shown(value), "a table", f"writing [{key}] and its values below")
        return {}

    def _known(self, table: dict[str, Any], where: str, names: tuple[str, ...]) -> None:
        for key in table:
            if key not in names:
                self.fault(
                    f"{where} {key}".strip(),
                    shown(key),
                    f"one of {', '.join(names)}",
                    nearest_name(key, names),
                )


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
