/** The one stylesheet. Colours keep a contrast of 4.5 to 1 at least in light and in dark. */
export const STYLESHEET = `
:root { color-scheme: light dark; --ink: #1d2324; --paper: #fbfaf7; --soft: #55605f; --line: #d5d9d4; --accent: #0b6b63; --card: #ffffff; --alarm: #8c1d18; --alarm-paper: #fdeeec; }
@media (min-width: 30rem) { .choices .choice { flex-basis: 0; } }
@media (prefers-color-scheme: dark) { :root { --ink: #e9ecea; --paper: #141817; --soft: #a9b4b1; --line: #343c3a; --accent: #6fd0c4; --card: #1b2120; --alarm: #ffb4ab; --alarm-paper: #33201e; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.0625rem/1.5 system-ui, sans-serif; }
main { max-width: 42rem; margin: 0 auto; padding: 1.25rem 1rem 3rem; }
h1 { font-size: 1.125rem; margin: 0 0 1rem; color: var(--soft); font-weight: 600; }
h2 { font-size: 1.75rem; line-height: 1.2; margin: 0 0 .75rem; text-wrap: balance; }
h3 { font-size: 1.0625rem; margin: 2rem 0 .5rem; }
.card > h3:first-child { margin-top: 0; }
p { margin: 0 0 .75rem; overflow-wrap: anywhere; }
a { color: var(--accent); }
.card { background: var(--card); border: 1px solid var(--line); border-radius: .75rem; padding: 1.25rem; margin: 0 0 1.5rem; }
.emergency { border: 2px solid var(--alarm); background: var(--alarm-paper); color: var(--alarm); border-radius: .75rem; padding: .875rem 1rem; margin: 0 0 1.25rem; font-size: 1rem; }
.steps { list-style: none; margin: 0; padding: 0; }
.steps li { border-top: 1px solid var(--line); padding: .75rem 0; display: grid; grid-template-columns: 1fr auto; gap: .25rem 1rem; }
.steps time, .when { color: var(--soft); font-size: .9375rem; grid-column: 1; }
.state { grid-column: 2; grid-row: 1; font-size: .875rem; color: var(--soft); white-space: nowrap; }
.done > span:first-child { color: var(--soft); }
.done > .state::before { content: "\\2713\\00a0"; }
@media screen and (max-width: 30rem) {
  h2 { font-size: 1.5rem; }
  .steps li { display: block; } .steps .state { display: inline-block; white-space: normal; margin-left: .375rem; } .steps .when { display: block; margin-top: .25rem; }
  .steps .state::before { content: "\\2013\\00a0"; } .done > .state::before { content: "\\2013\\00a0\\2713\\00a0"; }
}
.now { font-weight: 600; }
.buttons { display: flex; flex-wrap: wrap; gap: .75rem; margin: .75rem 0; }
.button { display: inline-block; padding: .625rem 1rem; border: 1px solid var(--accent); border-radius: .5rem; text-decoration: none; font-weight: 600; }
.report { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem .75rem; margin: 0 0 .75rem; }
.report .button { flex: 1 1 12rem; background: var(--accent); color: var(--card); font: inherit; font-weight: 600; cursor: pointer; }
.report .alarm { background: var(--alarm-paper); color: var(--alarm); border-color: var(--alarm); border-width: 2px; }
.report input { font: inherit; color: inherit; background: var(--paper); border: 1px solid var(--soft); border-radius: .5rem; padding: .5rem; max-width: 100%; }
.small { font-size: .9375rem; color: var(--soft); }
code { font-size: .875rem; overflow-wrap: anywhere; }
.first { background: var(--accent); color: var(--card); font: inherit; font-weight: 600; cursor: pointer; }
.quiet { background: none; color: var(--accent); font: inherit; font-weight: 600; cursor: pointer; }
.questions fieldset { border: 0; border-top: 1px solid var(--line); margin: 0; padding: 1rem 0 1.25rem; min-width: 0; }
.questions legend { float: left; width: 100%; padding: 0; margin: 0 0 .625rem; font-weight: 600; overflow-wrap: anywhere; }
.questions legend + * { clear: both; }
.questions > details { border-top: 1px solid var(--line); padding-top: .75rem; }
.questions > details li { margin-bottom: .5rem; }
.questions > details em { display: block; font-style: normal; font-size: .875rem; }
.questions .first { margin-top: 1rem; width: 100%; }
.choices { display: flex; flex-wrap: wrap; gap: .375rem; }
.choice { flex: 1 1 auto; display: flex; align-items: center; gap: .5rem; min-height: 3rem; padding: .5rem .625rem; border: 1px solid var(--soft); border-radius: .5rem; cursor: pointer; }
.choice:has(:checked) { border-color: var(--accent); box-shadow: inset 0 0 0 1px var(--accent); }
.choice input { flex: none; width: 1.25rem; height: 1.25rem; margin: 0; accent-color: var(--accent); }
.wide { align-items: flex-start; padding: .75rem; }
.wide input { margin-top: .125rem; }
.choice.refused, .refused .choice { border-color: var(--alarm); }
.mark { color: var(--alarm); font-weight: 600; margin: 0 0 .5rem; }
.faults { border: 2px solid var(--alarm); border-radius: .5rem; padding: .75rem 1rem; margin: 0 0 1rem; }
.faults h3 { margin: 0 0 .5rem; color: var(--alarm); }
.faults ul { margin: 0; padding-left: 1.25rem; }
.faults a { color: var(--alarm); }
details > summary { cursor: pointer; padding: .375rem 0; }
details .questions { margin-top: .75rem; }
main:has(.sheet) { max-width: 64rem; }
main.wide-page { max-width: 80rem; }
.sheet h3 { border-bottom: 1px solid var(--line); padding-bottom: .25rem; margin-top: 1.5rem; }
.sheet p { margin: 0; }
.sheet h3 { break-after: avoid; }
.sheet td, .sheet dd { unicode-bidi: isolate; }
.sheet .signing { margin-top: 1rem; }
.facts { display: grid; grid-template-columns: 1fr 1fr; gap: .375rem 2rem; margin: 0 0 1rem; }
.facts div { display: grid; grid-template-columns: 8.5rem 1fr; gap: .75rem; align-items: baseline; break-inside: avoid; }
.facts .whole { grid-column: 1 / -1; }
.facts dt { color: var(--soft); }
.facts dd { margin: 0; overflow-wrap: anywhere; white-space: pre-wrap; }
.records { width: 100%; border-collapse: collapse; font-size: .9375rem; }
.records th, .records td { text-align: left; vertical-align: top; padding: .375rem .5rem .375rem 0; border-bottom: 1px solid var(--line); overflow-wrap: anywhere; }
.records thead th { color: var(--soft); font-weight: 600; }
.records tr { break-inside: avoid; }
.records td:first-child { width: 14%; } .records td:nth-child(2) { width: 17%; } .records td:nth-child(4) { width: 17%; } .records td:last-child { width: 24%; }
.records .detail { white-space: pre-wrap; }
.aside strong, .aside td, .aside dd { text-decoration: line-through; text-decoration-color: var(--soft); }
.aside em { display: inline-block; text-decoration: none; }
.answers { columns: 2; column-gap: 2rem; margin: 0; padding-left: 1.125rem; }
.answers li { break-inside: avoid; }
.signatures { display: flex; flex-wrap: wrap; gap: 2rem; margin-top: 2rem; break-inside: avoid; }
.signatures p { flex: 1 1 14rem; }
.signatures .line { display: block; border-bottom: 1px solid var(--ink); height: 2rem; margin-bottom: .25rem; }
@media screen and (max-width: 45rem) {
  .facts { grid-template-columns: 1fr; } .facts div { grid-template-columns: 1fr; gap: 0; } .answers { columns: 1; }
  .records, .records tbody, .records tr, .records td, .records tbody th { display: block; width: auto !important; } .records thead { display: none; }
  .records td { border: 0; padding: 0; } .records tr { border-bottom: 1px solid var(--line); padding: .5rem 0; }
  .records td:not(:empty)::before { color: var(--soft); }
  .records td:nth-child(2)::before { content: "Happened: "; } .records td:nth-child(4):not(:empty)::before { content: "Rule: "; } .records td:nth-child(5)::before { content: "Told: "; }
}
@page { size: A4; margin: 10mm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --card: #fff; --soft: #444; --line: #999; --alarm: #000; --alarm-paper: #fff; --accent: #000; }
  body { font: 7.75pt/1.18 Arial, "Liberation Sans", Helvetica, "DejaVu Sans Condensed", sans-serif; } main, main:has(.sheet) { max-width: none; padding: 0; }
  .sheet h1 { font-size: 9pt; margin: 0; } .sheet h2 { font-size: 12pt; margin: 0; } .sheet h3 { font-size: 8pt; margin: .3125rem 0 .0625rem; padding: 0; }
  .facts { gap: 0 1rem; margin: 0; } .facts div { grid-template-columns: 5.5rem 1fr; gap: .375rem; }
  .small, .records, .answers { font-size: 7pt; } .records th, .records td { padding: .0625rem .375rem .0625rem 0; }
  .records td:first-child { width: 17%; } .records td:nth-child(2) { width: 20%; } .records td:nth-child(4) { width: 17%; } .records td:last-child { width: 21%; }
  .run p { display: inline; } .run p:not(:last-child)::after { content: " · "; }
  .signatures { margin-top: 0; } .signatures .line { height: 2.25rem; margin: 0; } .sheet .signing { margin-top: .25rem; }
}
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
`;
