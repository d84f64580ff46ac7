"""The pages of the app in their order, each built when it is first opened."""

from dashboard.pages.group import Group
from dashboard.pages.page import Page
from dashboard.pages.survey import Survey
from dashboard.pages.weigh import Weigh
from dashboard.pages.years import Years

PAGES: tuple[type[Page], ...] = (Survey, Weigh, Years, Group)
FIRST = Weigh.path
