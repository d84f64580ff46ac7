"""Where things stand on the page of trees, and how its words look."""

from dashboard import theme

TABS = f"""
#press-tabs-all {{ display: none; }}
.form {{ padding: 0; }}
button {{ padding: 3px 8px; }}
@media (max-width: {theme.NARROW - 1}px) {{
  #press-tabs-all {{ display: inline-block; }}
  :host(.at-all) button[aria-pressed=true]:not(#press-tabs-all) {{
    background: #fff; border-color: #8d979e; font-weight: 400; }}
}}
"""
LAYOUT = f"""
:host {{
  display: grid !important; box-sizing: border-box; gap: 2px 16px; padding: 8px 14px 6px;
  height: 100%; width: 100%; overflow: hidden; background: {theme.PAPER};
  grid-template-columns: minmax(0, 1fr) minmax(452px, 0.5fr);
  grid-template-rows: auto minmax(0, 1fr); grid-template-areas: "all tabs" "all panel";
}}
.tabs {{ grid-area: tabs; }}
.all {{ grid-area: all; min-height: 0; height: 100%; overflow: hidden; }}
.panel {{ grid-area: panel; min-height: 0; height: 100%; overflow: hidden auto; display: block; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; overflow: hidden auto;
    padding: 6px 10px; }}
  .tabs {{ position: sticky; top: -6px; z-index: 5; background: {theme.PAPER}; flex: none; }}
  .all, .panel {{ flex: none; height: auto; overflow: visible; }}
  :host(.at-panel) .all, :host(.at-all) .panel {{ display: none !important; }}
}}
"""
CARD = f"""
:host {{ font: 13px/1.4 {theme.FONT}; color: {theme.INK}; display: block; width: 100%; }}
h2 {{ font-size: 18px; margin: 4px 0; }} h3 {{ font-size: 14px; margin: 12px 0 2px; }}
p {{ margin: 2px 0; }}
svg {{ max-width: 100%; height: auto; }}
svg text {{ font: 11.5px {theme.FONT}; fill: {theme.INK}; }}
dl {{ margin: 2px 0; }} dt {{ font-weight: 600; }} dd {{ margin: 0 0 4px; }}
table {{ border-collapse: collapse; width: 100%; margin-top: 8px;
  font-variant-numeric: tabular-nums; }}
caption {{ text-align: left; font-weight: 600; padding: 4px 0 2px; }}
thead th {{ color: {theme.QUIET}; font-weight: 600; font-size: 12px; }}
th, td {{ text-align: left; vertical-align: top; font-weight: 400; padding: 3px 8px 3px 0;
  border-bottom: 1px solid #e3e7ea; overflow-wrap: break-word; }}
tbody th {{ width: 36%; }}
td:nth-child(2) {{ min-width: 72px; }} td:last-child {{ overflow-wrap: anywhere; }}
td b {{ font-weight: 600; white-space: nowrap; }}
b.memory {{ color: #8a4b00; }} b.verified {{ color: #1f6b43; }}
.small, .key {{ display: block; font-size: 12px; color: #56616a; }}
.differs {{ font-weight: 600; background: #f4f1e6; }}
.scroll {{ overflow-x: auto; }} .scroll:focus-visible {{ outline: 2px solid #2f6da8; }}
"""
