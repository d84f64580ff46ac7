"""How much memory a process took."""

from pathlib import Path


def peak(process: int | str = "self") -> float:
    """Most memory a process held so far [MB], as Linux counts it; NaN elsewhere.

    Not `getrusage`: what it says of a program begins with the memory of whoever started it.
    """
    status = Path(f"/proc/{process}/status")
    if not status.exists():
        return float("nan")
    (line,) = (line for line in status.read_text().splitlines() if line.startswith("VmHWM"))
    return int(line.split()[1]) / 1024
