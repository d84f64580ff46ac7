"""The planting calendar: what to do when, from the order to the third autumn."""

import pandas as pd

from model.planting.dates.care_tasks import care_tasks
from model.planting.dates.plan_dates import PlanDates, Task
from model.planting.dates.planting_tasks import planting_tasks
from model.planting.dates.season import Season
from model.planting.dates.watering_tasks import watering_tasks
from model.planting.placement import Placement
from model.study import Study

CALENDAR = ["first", "last", "what", "trees", "how", "caution", "source"]


def calendar(study: Study, placement: Placement, winter: int) -> pd.DataFrame:
    """What to do for a plan when, one row a task in the order of its first day.

    `winter` is the year in which the planting winter begins: in the north that of its December, in
    the south that of its June. Columns: first and last (ISO dates), what, trees (which it is for),
    how, caution, source.
    """
    if not placement.trees:
        return pd.DataFrame(columns=CALENDAR)
    dates = PlanDates(study, placement, Season(winter, study.site.latitude >= 0))
    tasks = [*planting_tasks(dates), *watering_tasks(dates), *care_tasks(dates)]
    ordered = sorted(tasks, key=lambda task: (task.first, task.last))
    return pd.DataFrame([_row(task) for task in ordered], columns=CALENDAR)


def _row(task: Task) -> dict[str, str]:
    days = {"first": task.first.isoformat(), "last": task.last.isoformat()}
    words = ("what", "trees", "how", "caution", "source")
    return days | {name: getattr(task, name) for name in words}
