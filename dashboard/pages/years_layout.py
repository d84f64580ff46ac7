"""Where things stand on the page of years, and how its words look."""

from dashboard import theme

LAYOUT = f"""
:host {{
  display: grid !important; box-sizing: border-box; gap: 4px 16px; padding: 8px 14px 6px;
  height: 100%; width: 100%; overflow: hidden; background: {theme.PAPER};
  grid-template-columns: minmax(0, 1fr) minmax(440px, 0.62fr);
  grid-template-rows: auto minmax(0, 1.5fr) auto auto minmax(0, 1fr);
  grid-template-areas: "clock text" "map text" "key text" "seen text" "elevation text";
}}
.head {{ position: absolute; }}
.clock {{ grid-area: clock; }}
.map {{ grid-area: map; min-height: 0; }}
.key {{ grid-area: key; }}
.seen {{ grid-area: seen; }}
.elevation {{ grid-area: elevation; min-height: 0; }}
.text {{ grid-area: text; min-height: 0; height: 100%; overflow: hidden auto; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; overflow: hidden auto; padding: 6px; }}
  .clock {{ position: sticky; top: -6px; z-index: 5; background: {theme.PAPER}; flex: none;
    padding: 6px 0; }}
  .map {{ height: 360px; flex: none; }}
  .elevation {{ height: 230px; flex: none; }}
  .key, .seen {{ flex: none; }}
  .text {{ height: auto; flex: none; overflow: visible; }}
}}
"""
TEXT = f"""
:host {{ font: 13px/1.4 {theme.FONT}; color: {theme.INK}; display: block; width: 100%; }}
.unseen {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%);
  margin: 0; }}
h2 {{ font-size: 14px; margin: 4px 0 2px; }}
p {{ margin: 3px 4px; }}
p.first {{ font-size: 16px; font-weight: 600; margin-top: 8px; }}
table {{ border-collapse: collapse; width: 100%; margin-top: 8px; font-size: 12.5px;
  font-variant-numeric: tabular-nums; }}
caption {{ text-align: left; font-weight: 600; padding: 2px 4px; }}
th, td {{ text-align: left; vertical-align: top; padding: 4px;
  border-top: 1px solid {theme.FAINT}; }}
thead th {{ border-top: 0; color: {theme.QUIET}; font-weight: 600; }}
ul {{ display: flex; flex-wrap: wrap; gap: 2px 14px; list-style: none; margin: 2px 4px; padding: 0;
  font-size: 12px; }}
li {{ display: flex; align-items: center; gap: 5px; }}
li.hint {{ color: {theme.QUIET}; }}
i {{ width: 13px; height: 13px; border-radius: 50%; box-sizing: border-box; flex: none;
  filter: var(--as-is, none); }}
i.ours {{ background: #6fae5a; border: 2px solid #1d4d1f; }}
i.theirs {{ background: #7e9580; border: 1px solid #35543a; }}
i.full {{ border: 1.5px dashed #1d4d1f; background: #fffaea; }}
i.roots {{ border: 1.5px dotted #7a4f16; background: #fffaea; }}
i.shade {{ background: #9aa1ad; border-radius: 2px; }}
i.tight {{ border: 2.5px dashed {theme.ACCENT}; background: #fffaea; }}
@media (max-width: {theme.NARROW - 1}px) {{
  thead {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }}
  tbody, tr {{ display: block; }}
  tr {{ display: grid; grid-template-columns: 1fr 1fr; border-top: 2px solid {theme.FAINT};
    padding: 6px 0; }}
  th[scope=row] {{ grid-column: 1 / -1; font-size: 14px; border: 0; }}
  td {{ border: 0; padding: 2px 4px; }}
  td::before {{ content: attr(data-label) ": "; color: {theme.QUIET}; }}
}}
"""
