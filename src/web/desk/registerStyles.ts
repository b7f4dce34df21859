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
.roll > li { display: flex; flex-wrap: wrap; gap: 0 1rem; align-items: center; padding: .375rem 0; border-top: 1px solid var(--line); overflow-wrap: anywhere; }
.roll > li:first-child { border-top: 0; }
.roll > li > a { min-height: 2.75rem; display: inline-flex; align-items: center; font-weight: 600; flex: 1 1 14rem; }
.roll > li > .small { flex: 2 1 16rem; }
.roll .small bdi { display: inline-block; max-width: 100%; }
.ask { grid-row: 2; }
.ask { border: 1px solid var(--soft); border-radius: 1rem; padding: .125rem .625rem; font-size: .875rem; white-space: nowrap; }
.turn { font-weight: 600; }
.turn.is-alarm { color: var(--alarm); }
details.card { padding: .5rem 1.25rem; }
details.card[open] { padding-bottom: 1.25rem; }
details > summary { line-height: 1.375rem; padding: .6875rem 0; }
details.card > summary { font-weight: 600; }
.told-table { width: 100%; border-collapse: collapse; font-size: .9375rem; }
.told-table th, .told-table td { text-align: left; vertical-align: top; padding: .5rem .75rem .5rem 0; border-bottom: 1px solid var(--line); overflow-wrap: anywhere; }
.told-table thead th { color: var(--soft); font-weight: 600; }
.told-table tbody th { padding-top: 1rem; }
.told-table td:first-child { width: 22%; }
.told-table .says { white-space: pre-wrap; width: 32%; }
@media (max-width: 45rem) {
  .told-table, .told-table tbody, .told-table tr, .told-table td, .told-table tbody th { display: block; width: auto !important; }
  .told-table thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .told-table td { border: 0; padding: 0; }
  .told-table a, .roll > li > .small a { display: inline-block; padding: .625rem .5rem .625rem 0; }
  h1 a { display: inline-block; padding: .625rem 0; }
  .told-table tr { border-bottom: 1px solid var(--line); padding: .625rem 0; }
}
.actions { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem .75rem; margin: .5rem 0; }
.actions .button { display: inline-flex; align-items: center; min-height: 2.75rem; padding: .5rem .875rem; }
.register > .actions, .unprinted .actions { margin-bottom: 1.25rem; }
.plainlist { list-style: none; margin: 0; padding: 0; }
.plainlist > li { padding: .5rem 0; border-top: 1px solid var(--line); overflow-wrap: anywhere; }
.plainlist > li:first-child { border-top: 0; }
.inline-choice { display: inline-flex; align-items: center; gap: .5rem; min-height: 2.75rem; }
.inline-choice input { width: 1.25rem; height: 1.25rem; flex: none; accent-color: var(--accent); }
.check { display: flex; align-items: flex-start; gap: .625rem; min-height: 2.75rem; padding: .375rem 0; }
.check input { width: 1.25rem; height: 1.25rem; margin: .1875rem 0 0; flex: none; accent-color: var(--accent); }
.counts { display: flex; flex-wrap: wrap; gap: .25rem .5rem; list-style: none; margin: 0 0 .5rem; padding: 0; }
.counts a { display: inline-flex; align-items: center; gap: .375rem; min-height: 2.75rem; padding: 0 .75rem; border: 1px solid var(--line); border-radius: .5rem; text-decoration: none; color: inherit; }
.counts a:hover { text-decoration: underline; }
.note { border: 2px solid var(--alarm); border-radius: .5rem; padding: .75rem 1rem; margin: 0 0 1rem; }
.push { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem .75rem; border-top: 1px solid var(--line); margin-top: .75rem; padding-top: .75rem; }
.push label { font-weight: 600; flex: 1 0 100%; }
.entries { list-style: none; margin: 0; padding: 0; }
.entries > .card { margin-bottom: 1rem; scroll-margin-top: .75rem; }
.entries > .card:target { border: 2px solid var(--accent); }
.entries h3 { margin: 0 0 .5rem; overflow-wrap: anywhere; font-size: 1.25rem; }
.entries .card > .small { margin: 0; }
.answering { display: flex; flex-wrap: wrap; align-items: flex-end; gap: .25rem 1rem; }
.answering .field { flex: 1 1 14rem; max-width: 20rem; }
.answering .actions { margin: .25rem 0 0; }
.diaries > .actions { margin-bottom: 1.25rem; }
.whose { display: flex; flex-wrap: wrap; gap: .5rem 1rem; margin: .25rem 0 .75rem; }
.whose .field { flex: 1 1 12rem; }
.answered-note { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem 1rem; }
.answered-note p { margin: 0; flex: 1 1 20rem; overflow-wrap: anywhere; }
.kept-answer { margin: 0; flex: 1 1 20rem; }
.kept-answer .small { display: block; }
.starts-form { display: flex; flex-wrap: wrap; align-items: flex-end; gap: .5rem 1rem; margin: 0 0 .75rem; }
.starts-form .field { flex: 0 1 20rem; }
.starts-form .faults { flex: 1 0 100%; margin: 0; }
.starts { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0 1.5rem; align-items: start; }
@media (min-width: 64rem) { .starts { grid-template-columns: repeat(2, minmax(0, 1fr)); } }
.starts h2 { font-size: 1.5rem; }
.sample { overflow-x: auto; border: 1px solid var(--line); border-radius: .5rem; padding: .75rem; font-size: .8125rem; line-height: 1.6; white-space: pre; }
.one-client header > .small { margin: 0; }
.one-client h1 { margin-bottom: .25rem; }
.one-client .reach { display: flex; flex-wrap: wrap; gap: .25rem 1.5rem; }
.one-client .reach a { display: inline-flex; align-items: center; min-height: 2.75rem; }
.columns { display: grid; gap: 0 1.5rem; grid-template-columns: minmax(0, 1fr); }
@media (min-width: 64rem) { .columns { grid-template-columns: minmax(0, 1fr) 24rem; } }
.columns .roll { padding: 0; margin: 0; }
.decide { border: 2px solid var(--accent); }
.likeness { border-top: 1px solid var(--line); padding-top: .75rem; margin-top: .75rem; }
.split { margin-top: 1.25rem; border-top: 1px solid var(--line); padding-top: 1rem; }
.split fieldset, .either { border: 0; margin: 0; padding: 0; min-width: 0; width: 100%; }
.split legend, .either legend { font-weight: 600; padding: 0; }
.either .choice { margin: 0 0 .5rem; }
.answered { margin: .5rem 0; }
.answered div { display: grid; grid-template-columns: minmax(0, 1fr) 5rem; gap: 1rem; padding: .375rem 0; border-top: 1px solid var(--line); }
.answered dd { margin: 0; }
.answered .told { font-weight: 700; }
.link-card .qr { display: block; width: 11rem; height: 11rem; margin: 0 0 1rem; border-radius: .5rem; }
.address { display: grid; grid-template-columns: minmax(0, 1fr) auto; gap: .25rem .5rem; margin: 0 0 .75rem; }
.address label { grid-column: 1 / -1; font-weight: 600; }
.address input { min-width: 0; font-size: .875rem; }
.card-page .handout { width: 105mm; max-width: 100%; min-height: 148mm; padding: 7mm; background: #fff; color: #000; border: 1px dashed #666; font: 10.5pt/1.35 system-ui, sans-serif; display: flex; flex-direction: column; }
.handout p { margin: 0 0 3mm; }
.handout .from { font-weight: 700; border-bottom: .5mm solid #000; padding-bottom: 1.5mm; }
.handout .next { font-size: 15pt; line-height: 1.2; font-weight: 700; text-wrap: balance; }
.handout .code { display: grid; grid-template-columns: 36mm minmax(0, 1fr); gap: 3mm; align-items: start; margin: auto 0 3mm; }
.handout .qr { width: 36mm; height: 36mm; }
.handout .written { display: block; font: 8pt/1.3 ui-monospace, monospace; overflow-wrap: anywhere; margin-top: 1mm; }
.handout .emergency { border: .5mm solid #000; background: #fff; color: #000; border-radius: 1.5mm; padding: 2mm 2.5mm; font-size: 9.5pt; }
.handout .foot { margin: 0; font-size: 8.5pt; }
@media print {
  .wide-page .sheet h1 { font-size: 9pt; margin: 0; } .wide-page .sheet h2 { font-size: 12pt; margin: 0; }
  .top, .cautions, .said, .unprinted { display: none; }
  .card-page .handout { width: 105mm; max-width: none; height: 148mm; }
}
`;
