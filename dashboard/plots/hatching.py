"""Ruled-out ground as few boxes as cover it, each with its reason."""

import numpy as np


def boxes(numbers: np.ndarray) -> np.ndarray:
    """Boxes that cover the cells of a grid (y, x) numbered 0 or more, one number a box.

    Rows of (left, bottom, right, top, number) in cells: runs along a row, joined with the runs
    of the row below where they begin and end alike.

    >>> boxes(np.array([[-1, 3, 3], [-1, 3, 3]])).tolist()
    [[1, 0, 3, 2, 3]]
    """
    rows, starts, ends, values = runs(numbers)
    order = np.lexsort((rows, values, ends, starts))
    rows, starts, ends, values = (part[order] for part in (rows, starts, ends, values))
    alike = (np.diff(starts) == 0) & (np.diff(ends) == 0) & (np.diff(values) == 0)
    joined = np.concatenate([[False], alike & (np.diff(rows) == 1)]) if rows.size else rows > 0
    first = np.flatnonzero(~joined)
    last = np.append(first[1:], rows.size) - 1 if first.size else first
    return np.column_stack([starts[first], rows[first], ends[first], rows[last] + 1, values[first]])


def runs(numbers: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Row, start, end and number of each unbroken run along the rows of a grid (y, x)."""
    edge = np.full((numbers.shape[0], 1), -1)
    padded = np.hstack([edge, numbers, edge])
    change = padded[:, 1:] != padded[:, :-1]
    begins = np.argwhere(change & (padded[:, 1:] >= 0))
    stops = np.argwhere(change & (padded[:, :-1] >= 0))
    return begins[:, 0], begins[:, 1], stops[:, 1], numbers[begins[:, 0], begins[:, 1]]
