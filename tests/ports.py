"""Ports of this machine for servers of the tests' own."""

import socket
import time
from collections.abc import Callable
from contextlib import ExitStack


def free_ports(count: int) -> list[int]:
    """Ports that nothing listens on."""
    with ExitStack() as held:
        probes = [held.enter_context(socket.socket()) for _ in range(count)]
        for probe in probes:
            probe.bind(("127.0.0.1", 0))
        return [probe.getsockname()[1] for probe in probes]


def free_port() -> int:
    """A port that nothing listens on."""
    return free_ports(1)[0]


def wait_for(port: int, patience: float, alive: Callable[[], bool] = lambda: True) -> None:
    """Wait until something listens [s at most], for as long as what should listen is alive.

    Raises TimeoutError when nothing does.
    """
    end = time.monotonic() + patience
    while time.monotonic() < end and alive():
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.1)
    raise TimeoutError(f"nothing listens on port {port}")
