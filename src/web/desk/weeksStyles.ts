/** The coming weeks as a table: on a narrow screen each row becomes a block with its picture below. */
export const WEEKS_STYLES = `
.pager { display: flex; flex-wrap: wrap; gap: .5rem; align-items: center; margin: 0 0 .75rem; }
.pager label { font-size: .9375rem; }
.weeks { width: 100%; border-collapse: collapse; background: var(--card); table-layout: fixed; }
.weeks th, .weeks td { text-align: left; vertical-align: middle; padding: .25rem .5rem; border-bottom: 1px solid var(--line); font-weight: 400; overflow-wrap: anywhere; }
.weeks thead th { font-size: .875rem; color: var(--soft); vertical-align: bottom; position: sticky; top: 0; background: var(--card); z-index: 1; }
.weeks thead th:nth-child(1) { width: 4.5rem; } .weeks thead th:nth-child(2) { width: 12.5rem; } .weeks thead th:nth-child(3) { width: 11.5rem; } .weeks thead th:nth-child(4) { width: 9.5rem; }
.weeks .along { padding-left: 0; padding-right: 0; }
.weeks .day-head th { font-weight: 700; background: var(--paper); padding-top: .75rem; }
.weeks .clock { font-variant-numeric: tabular-nums; }
.weeks .small { display: block; font-size: .875rem; }
.weeks tbody a { display: inline-block; padding: .25rem 0; font-weight: 600; }
.day-scale text { font-size: .6875rem; fill: var(--soft); text-anchor: middle; }
.legend ul { list-style: none; display: flex; flex-wrap: wrap; gap: .25rem 1.25rem; padding: 0; margin: .25rem 0; }
.legend li { display: inline-flex; align-items: center; gap: .375rem; font-size: .9375rem; }
.legend svg { overflow: visible; }
.legend rect { stroke: var(--line); }
@media (max-width: 64rem) {
  .weeks, .weeks tbody { display: block; } .weeks thead { display: none; }
  .weeks tr { display: grid; grid-template-columns: 4rem minmax(0, 1fr); border-bottom: 1px solid var(--line); padding: .375rem .5rem; }
  .weeks th, .weeks td { border: 0; padding: .125rem .25rem; }
  .weeks .day-head { display: block; background: var(--paper); }
  .weeks td + td { grid-column: 2; } .weeks th + td { grid-column: 2; } .weeks .small { display: inline-block; margin-left: .375rem; } .weeks .next:empty { display: none; }
  .weeks .along { grid-column: 1 / -1; }
}
`;
