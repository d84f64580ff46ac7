"""Length, bearing and area in a sentence."""

from collections.abc import Sequence

from model.language import _
from model.survey.measuring import Place, area, bearing, distance, length


def figures(points: Sequence[Place], closed: bool) -> str:
    """What one wants to know of points while drawing them.

    >>> figures([(0, 0), (3, 4)], closed=False)
    'length 5.00 m; last stretch 5.00 m, bearing 37°'
    """
    if not points:
        return ""
    if len(points) == 1:
        x, y = points[0]
        return _("{x:.2f} m east, {y:.2f} m north of the origin").format(x=x, y=y)
    last, end = points[-2], points[-1]
    stretch = _("last stretch {metres:.2f} m, bearing {degrees:.0f}°").format(
        metres=distance(last, end), degrees=bearing(last, end)
    )
    if closed and len(points) > 2:
        said = _("area {area:.1f} m², round it {metres:.2f} m; {stretch}")
        return said.format(area=area(points), metres=length(points, closed=True), stretch=stretch)
    return _("length {metres:.2f} m; {stretch}").format(metres=length(points), stretch=stretch)
