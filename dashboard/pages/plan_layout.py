"""Where things stand on the Plan page, on a desk, on a phone and on paper."""

from dashboard import theme

LAYOUT = f"""
:host {{ display: block !important; box-sizing: border-box; height: 100%; width: 100%;
  overflow: hidden auto; background: {theme.PAPER}; padding: 0 14px; }}
@media print {{
  :host {{ overflow: visible; height: auto !important; max-height: none !important; }}
}}
"""
ABOVE = f"""
:host {{ display: grid !important; gap: 0 16px; width: 100%; height: calc(100% - 58px) !important;
  min-height: 520px; flex: none; box-sizing: border-box; padding: 8px 0 4px;
  grid-template-columns: 292px minmax(0, 1fr) 330px; grid-template-rows: minmax(0, 1fr) auto;
  grid-template-areas: "asked map told" "asked key told"; }}
.asked {{ grid-area: asked; min-height: 0; height: 100%; overflow: hidden auto; }}
.map {{ grid-area: map; min-height: 0; height: 100%; }}
.key {{ grid-area: key; }}
.told {{ grid-area: told; min-height: 0; height: 100%; overflow: hidden auto; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ display: flex !important; flex-direction: column; height: auto !important;
    max-height: none !important; min-height: 0; }}
  .asked, .told {{ height: auto; flex: none; overflow: visible; }}
  .map {{ height: 380px !important; flex: none !important; }}
  .key {{ flex: none; }}
  :host(.placed) .asked {{ order: 1; }}
}}
@media print {{
  :host {{ display: block !important; height: auto !important; max-height: none !important; }}
  .asked {{ display: none; }}
  .map {{ height: 16cm !important; }}
}}
"""
KEY = f"""
:host {{ font: 12px/1.4 {theme.FONT}; color: {theme.INK}; display: block; width: 100%; }}
ul {{ display: flex; flex-wrap: wrap; gap: 2px 14px; list-style: none; margin: 4px 0; padding: 0; }}
li {{ display: flex; align-items: center; gap: 5px; }}
i {{ width: 14px; height: 14px; border-radius: 50%; box-sizing: border-box; flex: none;
  filter: var(--as-is, none); }}
i.crown {{ background: #b7d6ac; border: 2px solid #1d4d1f; }}
i.range {{ border: 1px dashed #1d4d1f; background: #fff; }}
i.set {{ border-radius: 0; width: 10px; height: 10px; background: #1f2428;
  border: 1px solid #fff; }}
i.was {{ border: 1.5px dashed #1f2428; background: #fff; }}
i.link {{ border-radius: 0; height: 2px; border: 0; border-top: 2px dashed #7d5799; }}
b.cross {{ color: #a3231d; font-size: 15px; line-height: 1; }}
"""
