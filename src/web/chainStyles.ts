/** What the pictures of plans need beside the one stylesheet. */
export const CHAIN_STYLES = `
.chain { margin: 0 0 1rem; container-type: inline-size; }
.chain svg, .chain-row { display: block; overflow: visible; }
.chain text { font-size: .8125rem; fill: var(--ink); }
.chain .words { paint-order: stroke; stroke: var(--card); stroke-width: 4px; stroke-linejoin: round; }
.chain .words.now, .chain .words.colour { font-weight: 700; }
.chain .words.done, .chain .words.off { fill: var(--soft); }
.chain .day text { font-size: .6875rem; fill: var(--soft); text-anchor: middle; }
.chain .day.wide { display: none; }
.midnight { stroke: var(--line); stroke-width: 1px; }
.span { stroke: var(--soft); stroke-width: 5px; stroke-linecap: round; opacity: .45; }
.now > .span { stroke: var(--accent); opacity: 1; }
.hangs > .span { stroke-dasharray: 1 9; }
.now-mark line, .now-line { stroke: var(--accent); stroke-width: 2px; stroke-dasharray: 6 3; }
.now-mark text { font-weight: 700; fill: var(--accent); }
.chain-symbols { position: absolute; }
.hatch { stroke: var(--soft); stroke-width: 1.5px; opacity: .55; }
.dots { fill: var(--soft); opacity: .8; }
.m-open, .m-now, .m-asked, .m-done, .m-off { stroke-linejoin: round; stroke-linecap: round; stroke-width: 2px; fill: var(--card); stroke: var(--ink); }
.m-now > use { stroke: var(--accent); stroke-width: 3.5px; }
.m-now > circle { fill: var(--accent); stroke: none; }
.m-asked > text { font: 700 13px system-ui, sans-serif; fill: var(--ink); stroke: none; }
.m-done > use { fill: var(--ink); }
.m-done > path { fill: none; stroke: var(--card); stroke-width: 2.5px; }
.m-off { stroke: var(--soft); }
.m-off > path { fill: none; }
.hangs > use { stroke-dasharray: 3 2; }
.m-colour { fill: var(--accent); stroke: var(--accent); stroke-width: 2px; stroke-linejoin: round; }
.chain figcaption { margin-top: .375rem; display: flex; flex-wrap: wrap; gap: .25rem 1.25rem; }
.shut-kind { display: inline-flex; align-items: center; gap: .5rem; }
.shut-kind svg { border: 1px solid var(--line); }
@container (min-width: 36rem) { .chain .day.wide { display: inline; } .chain .day.narrow { display: none; } }
/* So far zoomed that no words would stand beside a shape; the list says all. */
@media (max-width: 17rem) { .chain { display: none; } }
@media (forced-colors: active) { .m-done > use { fill: CanvasText; } .m-done > path { stroke: Canvas; } }
`;
