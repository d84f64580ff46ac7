"""The pages of the app in their order, each built when it is first opened."""

from dashboard.pages.group import Group
from dashboard.pages.page import Page
from dashboard.pages.plan import Plan
from dashboard.pages.report import Report
from dashboard.pages.review import Review
from dashboard.pages.survey import Survey
from dashboard.pages.trees import Trees
from dashboard.pages.weigh import Weigh
from dashboard.pages.years import Years

PAGES: tuple[type[Page], ...] = (Survey, Trees, Weigh, Years, Plan, Review, Group, Report)
FIRST = Weigh.path
