"""Where things stand on the page: a grid on a wide screen, one column on a narrow one."""

from dashboard import theme
from model.language import _, marked

LAYOUT = f"""
:host {{
  display: grid !important; box-sizing: border-box; gap: 4px 16px; padding: 6px 14px 4px;
  height: 100%; width: 100%; overflow: hidden; background: {theme.PAPER};
  grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
  grid-template-rows: auto fit-content(384px) auto minmax(90px, 1fr) auto 226px auto;
  grid-template-areas: "map verdict" "map merit" "map bars-head" "map bars"
    "tabs tabs" "panel panel" "cautions cautions";
}}
.map {{ grid-area: map; min-height: 0; }}
.verdict {{ grid-area: verdict; }}
.merit {{ grid-area: merit; min-height: 0; }}
.bars-head {{ grid-area: bars-head; }}
.bars {{ grid-area: bars; min-height: 0; }}
.tabs {{ grid-area: tabs; }}
.panel {{ grid-area: panel; min-height: 0; }}
.cautions {{ grid-area: cautions; font: 12px/1.35 {theme.FONT}; color: {theme.INK}; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; gap: 8px;
    height: 100%; overflow: hidden auto; padding: 6px; }}
  .verdict, .merit, .bars-head, .bars, .tabs, .panel, .cautions {{
    flex: none; height: auto; max-height: none; }}
  .map {{ flex: none; height: 500px; }}
}}
"""
BOX = f"""
@media (max-width: {theme.NARROW - 1}px) {{
  .change, .why, .side-by-side, .sure {{ flex: none; height: auto; overflow: visible; }}
}}
"""
CHANGE = f"""
:host {{ display: grid !important; gap: 6px 16px;
  grid-template: minmax(0, 1fr) / minmax(0, 1fr) minmax(0, 1fr); }}
.tipping, .curve {{ min-height: 0; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; }}
  .tipping {{ flex: none; height: 260px; }}
  .curve {{ flex: none; height: auto; }}
}}
"""


def cautions(services_judged: bool) -> str:
    """What can hurt somebody, in plain words."""
    services = "" if services_judged else _(UNJUDGED_SERVICES)
    return _(CAUTIONS).format(services=services)


UNJUDGED_SERVICES = marked(
    "Buried and overhead services are drawn on the map but <b>not judged</b>."
)
CAUTIONS = marked("""
<b>Before any hole:</b> ask every network operator, have services traced, dig by hand.
What is not on the plan may still be in the ground. {services}
<b>Overhead lines:</b> keep ladders, poles and machines clear.
<b>Slopes:</b> no ladder on ground that is not level. Local codes and licensed practice come first.
""")
