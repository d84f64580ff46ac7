"""Where things stand on the page: a grid on a wide screen, one column on a narrow one."""

from dashboard import theme

LAYOUT = f"""
:host {{
  display: grid !important; box-sizing: border-box; gap: 6px 16px; padding: 8px 14px 6px;
  height: 100%; width: 100%; overflow: hidden; background: {theme.PAPER};
  grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
  grid-template-rows: auto minmax(0, 1.65fr) auto minmax(0, 0.62fr) minmax(0, 1.1fr) auto;
  grid-template-areas: "map verdict" "map merit" "map bars-head" "map bars"
    "tipping curve" "cautions cautions";
}}
.map {{ grid-area: map; min-height: 0; }}
.verdict {{ grid-area: verdict; }}
.merit {{ grid-area: merit; min-height: 0; }}
.bars-head {{ grid-area: bars-head; }}
.bars {{ grid-area: bars; min-height: 0; overflow: hidden auto; scrollbar-gutter: stable; }}
.tipping {{ grid-area: tipping; min-height: 0; }}
.curve {{ grid-area: curve; min-height: 0; }}
.cautions {{ grid-area: cautions; font: 12px/1.35 {theme.FONT}; color: {theme.INK}; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column;
    height: 100%; overflow: hidden auto; padding: 6px; }}
  .map {{ height: 420px; flex: none; }}
  .merit {{ height: 460px; flex: none; }}
  .bars {{ height: auto; flex: none; }}
  .tipping {{ height: 260px; flex: none; }}
  .curve {{ height: auto; flex: none; }}
}}
"""


def cautions(services_judged: bool) -> str:
    """What can hurt somebody, in plain words."""
    services = "" if services_judged else UNJUDGED_SERVICES
    return CAUTIONS.format(services=services)


UNJUDGED_SERVICES = "Buried and overhead services are drawn on the map but <b>not judged</b>."
CAUTIONS = """
<b>Before any hole:</b> ask every network operator, have services traced, dig by hand.
What is not on the plan may still be in the ground. {services}
<b>Overhead lines:</b> keep ladders, poles and machines clear.
<b>Slopes:</b> no ladder on ground that is not level. Local codes and licensed practice come first.
"""
