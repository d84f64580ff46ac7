"""The settings as a link: what a study was set to, in the address and taken back from it."""

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

from model.decision.desirability import Curve
from model.decision.weights import normalised
from model.study import Study
from model.survey.faults import shown
from model.survey.settings import REACH

MOST_KNOTS = 20  # of a curve; more say nothing that a person could


def query(study: Study) -> dict[str, str]:
    """Settings of a study as words of an address."""
    names = [factor.name for factor in study.factors]
    shares = zip(names, study.weights, strict=True)
    curves = {
        f"curve.{name}": _curve_words(settings.curve)
        for name, settings in study.settings.items()
        if settings.curve != type(settings).curve
    }
    return {
        "weights": "~".join(f"{name}:{100 * share:.6g}" for name, share in shares),
        "trade_off": f"{study.trade_off:.4g}",
        "place": _place_words(study.ground.places, study.place),
        "option": study.options[study.option].label,
        "layer": study.layer,
        **({"moment": f"{study.day}@{study.hour:g}"} if study.layer == "shade" else {}),
        **curves,
    }


def follow(study: Study, words: Mapping[str, str]) -> list[str]:
    """Set a study as a link says; sentences for what the link asks and this site has not."""
    readers = {
        "weights": _read_weights,
        "trade_off": _read_trade_off,
        "place": _read_place,
        "option": _read_option,
        "layer": _read_layer,
        "moment": _read_moment,
    }
    choices: dict[str, Any] = {}
    notes = []
    for key, word in words.items():
        read = _read_curve if key.startswith("curve.") else readers.get(key)
        if read is None:
            continue
        try:
            choices |= read(study, key, str(word))
        except ValueError as error:
            notes.append(f"The link's {key.replace('_', '-')} was left out: {error}.")
    curves = {key: choices.pop(key) for key in list(choices) if key.startswith("curve.")}
    for key, curve in curves.items():
        study.settings[key.removeprefix("curve.")].curve = curve
    study.param.update(**choices)
    return notes


def _figure(word: str) -> float:
    """A word as a number, NaN when it is none."""
    try:
        return float(word)
    except ValueError:
        return math.nan


def _curve_words(curve: Curve) -> str:
    return "~".join(f"{x:.6g}:{y:.4g}" for x, y in zip(curve.x, curve.y, strict=True))


def _pairs(word: str) -> list[tuple[str, float]]:
    try:
        split = [part.split(":") for part in word.split("~")]
        return [(name, float(value)) for name, value in split]
    except ValueError:
        raise ValueError(f"{shown(word)} is not a list of name:figure") from None


def _place_words(places: Any, place: int) -> str:
    if place >= places.cells:
        return str(places.spots[place - places.cells])
    return f"{places.x[place]:.2f},{places.y[place]:.2f}"


def _read_weights(study: Study, _key: str, word: str) -> dict[str, Any]:
    shares = dict(_pairs(word))
    names = [factor.name for factor in study.factors]
    unknown = shares.keys() - set(names)
    if unknown:
        raise ValueError(f"no factor called {shown(sorted(unknown)[0])} is judged here")
    weights = np.array([shares.get(name, 0.0) for name in names])
    if not ((weights >= 0).all() and 0 < weights.sum() < np.inf):
        raise ValueError("weights are shares of 0 or more, not all 0")
    return {"weights": normalised(weights)}


def _read_trade_off(study: Study, _key: str, word: str) -> dict[str, Any]:
    low, high = study.param.trade_off.bounds
    value = _figure(word)
    if not low <= value <= high:
        raise ValueError(f"found {shown(word)}, expected a figure from {low:g} to {high:g}")
    return {"trade_off": value}


def _read_place(study: Study, _key: str, word: str) -> dict[str, Any]:
    places = study.ground.places
    if word in places.spots:
        return {"place": places.cells + places.spots.index(word)}
    east, _, north = word.partition(",")
    try:
        x, y = float(east), float(north)
    except ValueError:
        raise ValueError(f"there is no peg called {shown(word)}") from None
    if not (abs(x) <= REACH and abs(y) <= REACH):
        raise ValueError(f"{shown(word)} is not near this land")
    return {"place": places.nearest(x, y, reach=0.0)}


def _read_option(study: Study, _key: str, word: str) -> dict[str, Any]:
    labels = [option.label for option in study.options]
    if word not in labels:
        raise ValueError(f"{shown(word)} is not on the short list")
    return {"option": labels.index(word)}


def _read_layer(study: Study, _key: str, word: str) -> dict[str, Any]:
    known = ["best", "option", "shade", *(factor.name for factor in study.factors)]
    if word not in known:
        raise ValueError(f"the map has no layer called {shown(word)}")
    return {"layer": word}


def _read_moment(_study: Study, _key: str, word: str) -> dict[str, Any]:
    day, hour = (_figure(part) for part in word.partition("@")[::2])
    if not (day in range(1, 366) and 0 <= hour <= 24):
        raise ValueError(f"found {shown(word)}, expected a day and an hour such as 172@15.5")
    return {"day": int(day), "hour": hour}


def _read_curve(study: Study, key: str, word: str) -> dict[str, Any]:
    name = key.removeprefix("curve.")
    if name not in study.settings:
        raise ValueError(f"no factor called {shown(name)} is judged here")
    pairs = _pairs(word)
    if len(pairs) > MOST_KNOTS:
        raise ValueError(f"found {len(pairs)} knots of a curve, expected at most {MOST_KNOTS}")
    return {key: Curve(tuple(_figure(x) for x, _ in pairs), tuple(y for _, y in pairs))}
