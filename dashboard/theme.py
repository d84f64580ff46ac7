"""The look: one accent, quiet greys, four families, one sequential colour for scores."""

from collections.abc import Iterable

INK = "#1f2428"
QUIET = "#5f6a72"
FAINT = "#c9cfd3"
PAPER = "#ffffff"
ACCENT = "#b3302a"
LEADER = ACCENT
CONTENDER = "#8d979e"
# Cividis after Nunez, Anderton & Renslow (2018): read alike with and without colour vision.
SCORE_COLOURS = "cividis"

FAMILY_COLOURS = {
    "place": "#2f6da8",
    "room": "#a9761f",
    "ground": "#2e8265",
    "people": "#7d5799",
}
FAMILY_LABELS = {
    "place": "The place",
    "room": "Room to grow",
    "ground": "The ground",
    "people": "The people",
}

FONT = "system-ui, -apple-system, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif"
# What must keep its own colours where the page is shown light on dark: maps and pictures.
AS_IS = ":host { filter: var(--as-is, none); }"
# A button that takes the colour of what it stands on.
BUTTON = {
    "color": "inherit",
    "borderColor": "currentColor",
    "&.Mui-disabled": {"color": "inherit", "borderColor": "currentColor", "opacity": 0.4},
}
NARROW = 1000  # px; below this the weights stand in a drawer and everything else in one column


def family_colour(family: str) -> str:
    """Colour of a family of factors; a family not foreseen is drawn in grey."""
    return FAMILY_COLOURS.get(family, QUIET)


def family_label(family: str) -> str:
    """Words for a family of factors."""
    return FAMILY_LABELS.get(family, family.capitalize())


def letter(index: int) -> str:
    """Letter of an option by its place in the short list.

    >>> letter(0), letter(25), letter(26)
    ('a', 'z', 'aa')
    """
    first, last = divmod(index, 26)
    return (chr(ord("a") + first - 1) if first else "") + chr(ord("a") + last)


def figure_text(value: float, decimals: int, unit: str = "") -> str:
    """Figure with its unit, no more digits than it deserves; a dash where it is not known.

    >>> figure_text(6.12, 1, "h"), figure_text(float("nan"), 1, "h")
    ('6.1 h', 'not known')
    """
    if value != value:  # noqa: PLR0124 -- NaN is the one value that differs from itself
        return "not known"
    text = f"{value:.{decimals}f}".replace("-", "\N{MINUS SIGN}")
    return f"{text} {unit}".strip()


def spread_apart(positions: Iterable[float], gap: float) -> list[float]:
    """Positions moved as little as may be, up or down, so that labels do not cover one another.

    Each run of labels that would touch stands evenly about the middle of where it belongs.

    >>> spread_apart([0.5, 0.52, 0.2], 0.1)
    [0.46, 0.56, 0.2]
    """
    positions = list(positions)
    order = sorted(range(len(positions)), key=positions.__getitem__)
    runs: list[list[float]] = []  # sum and count of where the labels would begin without gaps
    for rank, index in enumerate(order):
        runs.append([positions[index] - rank * gap, 1.0])
        while len(runs) > 1 and runs[-2][0] / runs[-2][1] >= runs[-1][0] / runs[-1][1]:
            total, count = runs.pop()
            runs[-1] = [runs[-1][0] + total, runs[-1][1] + count]
    placed = list(positions)
    starts = [total / count for total, count in runs for _ in range(round(count))]
    for rank, (index, start) in enumerate(zip(order, starts, strict=True)):
        placed[index] = round(start + rank * gap, 9)
    return placed
