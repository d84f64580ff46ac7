"""A tree beside a person and a ladder, to one scale: small, usual and large."""

from collections.abc import Callable, Sequence
from html import escape

import numpy as np

from dashboard import theme
from model.language import _

PERSON, LADDER = 1.7, 2.5  # [m]
WIDTH, HEIGHT, UNDER = 430, 190, 34  # px: the picture's room, and that of the words under it
NARROWEST = 0.8  # [m] between a crown's middle and the next one's edge
CLEAR = 0.8  # [m] of stem below a crown at most


def size_drawing(
    now: np.ndarray, full: np.ndarray, names: Sequence[str], shown: Callable[[str], str]
) -> str:
    """The trees of `now` (2, 3) [m], height and spread, on the room of the full-grown `full`."""
    wide = np.maximum(full[1], NARROWEST)
    middles = 2.4 + np.cumsum(wide + 0.7) - (wide + 0.7) / 2
    across = float(2.4 + (wide + 0.7).sum())
    top = max(float(full[0].max()), LADDER) + 0.3
    scale = min(WIDTH / across, HEIGHT / top)
    base = top * scale
    words = [shown(f"{tall:.1f} m") for tall in now[0]]
    parts = [_person(0.5 * scale, base, scale), _ladder(1.2 * scale, base, scale)]
    for x, tall, spread, name, size in zip(
        middles * scale, now[0] * scale, now[1] * scale, names, words, strict=True
    ):
        parts += [_tree(x, base, tall, spread, scale), _words(x, base, name, size)]
    width, height = across * scale, base + UNDER
    sizes = ", ".join(f"{name} {size}" for name, size in zip(names, words, strict=True))
    label = _("To scale beside a person of 1.7 m and a ladder of 2.5 m: {sizes}.")
    said = escape(shown(label).format(sizes=sizes), quote=True)
    ground = f"<path d='M0 {base:.1f} H{width:.1f}' stroke='{theme.INK}' stroke-width='1.5'/>"
    return (
        f"<svg role='img' aria-label='{said}' viewBox='0 -4 {width:.0f} {height + 4:.0f}' "
        f"width='{width:.0f}' height='{height + 4:.0f}'>{''.join(parts)}{ground}</svg>"
    )


def _tree(x: float, base: float, tall: float, spread: float, scale: float) -> str:
    clear = min(0.25 * tall, CLEAR * scale)
    middle, reach = base - (tall + clear) / 2, (tall - clear) / 2
    return (
        f"<path d='M{x:.1f} {base:.1f} V{middle:.1f}' stroke='#5b4a35' stroke-width='3'/>"
        f"<ellipse cx='{x:.1f}' cy='{middle:.1f}' rx='{spread / 2:.1f}' ry='{reach:.1f}' "
        f"fill='#dfe9dc' fill-opacity='0.85' stroke='#2e5c33' stroke-width='1.5'/>"
    )


def _words(x: float, base: float, name: str, size: str) -> str:
    return "".join(
        f"<text x='{x:.1f}' y='{base + down}' text-anchor='middle'>{escape(text)}</text>"
        for text, down in ((name, 14), (size, 28))
    )


def _person(x: float, base: float, scale: float) -> str:
    """A person who stands, arms hanging."""
    head, neck, hip = (base - scale * up for up in (1.56, 1.4, 0.8))
    arm, leg, hand = 0.2 * scale, 0.16 * scale, base - 0.85 * scale
    return (
        f"<circle cx='{x:.1f}' cy='{head:.1f}' r='{0.14 * scale:.1f}' fill='{theme.INK}'/>"
        f"<path d='M{x:.1f} {neck:.1f} V{hip:.1f} M{x - arm:.1f} {hand:.1f} L{x:.1f} {neck:.1f} "
        f"L{x + arm:.1f} {hand:.1f} M{x - leg:.1f} {base:.1f} L{x:.1f} {hip:.1f} "
        f"L{x + leg:.1f} {base:.1f}' stroke='{theme.INK}' stroke-width='2' fill='none' "
        "stroke-linecap='round'/>"
    )


def _ladder(x: float, base: float, scale: float) -> str:
    """A fruit ladder, narrower at the top."""
    foot, top = 0.5 * scale, base - LADDER * scale
    inward = 0.12 * scale
    rungs = "".join(
        f" M{x + inward * up / LADDER:.1f} {base - up * scale:.1f} "
        f"h{foot - 2 * inward * up / LADDER:.1f}"
        for up in np.arange(0.3, LADDER, 0.3)
    )
    sides = (
        f"M{x:.1f} {base:.1f} L{x + inward:.1f} {top:.1f} "
        f"M{x + foot:.1f} {base:.1f} L{x + foot - inward:.1f} {top:.1f}"
    )
    return f"<path d='{sides}{rungs}' stroke='{theme.QUIET}' stroke-width='1.5' fill='none'/>"
