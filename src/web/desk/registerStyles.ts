/** What the desk's lists of clients, entries, diaries and records look like. */
export const REGISTER_STYLES = `
.register { display: block; }
.stack { display: flex; flex-direction: column; align-items: flex-start; gap: .75rem; }
.field { display: flex; flex-direction: column; gap: .25rem; width: 100%; max-width: 32rem; margin: 0; }
.field input, .field select, .field textarea { width: 100%; }
.field label { font-weight: 600; }
.field .mark { margin: 0; }
.seek { display: grid; grid-template-columns: minmax(0, 1fr) auto; gap: .25rem .5rem; max-width: 40rem; margin: 0 0 1rem; }
.seek label { grid-column: 1 / -1; font-weight: 600; }
.tabs ul { display: flex; flex-wrap: wrap; gap: .25rem; list-style: none; margin: 0 0 1.25rem; padding: 0; border-bottom: 1px solid var(--line); }
.tabs a { display: inline-flex; align-items: center; gap: .375rem; min-height: 2.75rem; padding: 0 .75rem; color: inherit; text-decoration: none; border-bottom: 3px solid transparent; }
.tabs a:hover { text-decoration: underline; }
.tabs a[aria-current] { border-bottom-color: var(--accent); font-weight: 600; }
.tabs .count { color: var(--soft); font-weight: 400; }
.roll { list-style: none; padding: .25rem 1.25rem; }
.roll > li { display: grid; grid-template-columns: minmax(0, 1fr) auto; gap: 0 1rem; align-items: center; padding: .5rem 0; border-top: 1px solid var(--line); overflow-wrap: anywhere; }
.roll > li:first-child { border-top: 0; }
.roll > li > a { min-height: 2.75rem; display: flex; align-items: center; font-weight: 600; }
.roll > li > .small { grid-column: 1; }
.roll > li > .ask, .roll > li > .standing { grid-column: 2; grid-row: 1; }
.roll > li > .ask + .ask { grid-row: 2; }
.ask { border: 1px solid var(--soft); border-radius: 1rem; padding: .125rem .625rem; font-size: .875rem; white-space: nowrap; }
.standing { font-size: .9375rem; white-space: nowrap; }
.standing.is-alarm { color: var(--alarm); font-weight: 600; }
details.card > summary { font-weight: 600; min-height: 2.75rem; display: list-item; line-height: 2; }
.actions { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem .75rem; margin: .5rem 0; }
.plainlist { list-style: none; margin: 0; padding: 0; }
.plainlist > li { padding: .5rem 0; border-top: 1px solid var(--line); overflow-wrap: anywhere; }
.plainlist > li:first-child { border-top: 0; }
.inline-choice { display: inline-flex; align-items: center; gap: .5rem; min-height: 2.75rem; }
.inline-choice input { width: 1.25rem; height: 1.25rem; flex: none; accent-color: var(--accent); }
.check { display: flex; align-items: flex-start; gap: .625rem; min-height: 2.75rem; padding: .375rem 0; }
.check input { width: 1.25rem; height: 1.25rem; margin: .1875rem 0 0; flex: none; accent-color: var(--accent); }
`;
