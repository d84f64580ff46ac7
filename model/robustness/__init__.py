"""Whether a choice stands when weights or the survey are other than they are."""

from model.robustness.doubt import Doubt
from model.robustness.doubts import doubts
from model.robustness.pegs import PegRobustness, peg_robustness
from model.robustness.responding import response
from model.robustness.response import Response
from model.robustness.robustness import robustness
from model.robustness.standing import BOTH, NEAR, SURVEY, WEIGHTS, Robustness
from model.robustness.usual_errors import NOT_ASSUMED, USUAL

__all__ = [
    "BOTH",
    "NEAR",
    "NOT_ASSUMED",
    "SURVEY",
    "USUAL",
    "WEIGHTS",
    "Doubt",
    "PegRobustness",
    "Response",
    "Robustness",
    "doubts",
    "peg_robustness",
    "response",
    "robustness",
]
