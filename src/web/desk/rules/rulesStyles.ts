/** What the rules' form and the first visit need beside the desk's stylesheet. */
export const RULES_STYLES = `
.rules h2, .keys h2, .first-visit h2 { font-size: 1.25rem; }
.rules-side .buttons { margin-bottom: .75rem; }
.field { margin: 0 0 1rem; min-width: 0; }
fieldset.field { border: 0; padding: 0; }
.field > label, .field > legend { display: block; font-weight: 600; padding: 0; margin: 0 0 .25rem; }
.field input:not([type=checkbox], [type=hidden]), .field textarea, .field select { width: 100%; }
.field input.short { width: auto; }
.field.refused input, .field.refused textarea, .field.refused select { border: 2px solid var(--alarm); }
.field .mark { margin: .25rem 0 0; }
.hint { font-size: .875rem; color: var(--soft); margin: .25rem 0 0; }
.card > .hint { margin-bottom: 1rem; }
textarea { line-height: 1.4; resize: vertical; }
textarea.code, code { font-family: ui-monospace, monospace; }
textarea.code { font-size: .8125rem; }
.pair, .trio, .week { display: grid; gap: 0 1.25rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 15rem), 1fr)); align-items: start; }
.trio { grid-template-columns: repeat(auto-fit, minmax(min(100%, 11rem), 1fr)); }
.tight { grid-template-columns: repeat(auto-fit, minmax(min(100%, 8rem), 1fr)); }
.week { grid-template-columns: repeat(auto-fill, minmax(min(100%, 12rem), 1fr)); }
.week .field { margin-bottom: .5rem; }
.route, .service { border: 1px solid var(--line); border-radius: .5rem; padding: .75rem 1rem 0; margin: 0 0 1rem; min-width: 0; }
.route > legend, .service > legend { font-weight: 700; padding: 0 .375rem; overflow-wrap: anywhere; }
.route > .hint { margin: 0 0 .75rem; }
.ticks { display: grid; gap: .25rem; }
.ticks.row { display: flex; flex-wrap: wrap; gap: .25rem .5rem; }
.tick { display: flex; gap: .625rem; align-items: flex-start; padding: .625rem 0; min-height: 2.75rem; cursor: pointer; }
.ticks.row .tick { padding: .5rem .75rem; border: 1px solid var(--line); border-radius: .5rem; align-items: center; }
.ticks.row .tick:has(:checked) { border-color: var(--accent); box-shadow: inset 0 0 0 1px var(--accent); }
.tick input { flex: none; width: 1.25rem; height: 1.25rem; margin: .125rem 0 0; accent-color: var(--accent); }
.ticks.row .tick input { margin: 0; }
.tick .more { display: block; font-size: .875rem; color: var(--soft); }
.tick .more em { font-style: normal; display: block; }
.changes h2 { margin-bottom: .5rem; }
.changes .numbers { padding-left: 1.25rem; margin: 0 0 .75rem; font-weight: 600; }
.changes .each { padding-left: 1.25rem; margin: .5rem 0 .75rem; font-size: .9375rem; }
.changes .each li { margin-bottom: .625rem; overflow-wrap: anywhere; }
.changes .was, .changes .then { display: block; color: var(--soft); }
.changes .then { color: inherit; }
.changes[aria-busy=true] { opacity: .6; }
.key-shown { border: 2px dashed var(--soft); border-radius: .5rem; padding: .75rem 1rem; margin: 0 0 1rem; }
.key-shown code { font-size: 1rem; }
.feed-address { display: flex; flex-wrap: wrap; gap: 1rem 1.5rem; align-items: flex-start; margin-bottom: .75rem; }
.feed-address > div { flex: 1 1 16rem; min-width: 0; }
.feed-address .qr { width: 10rem; height: 10rem; flex: none; border-radius: .5rem; }
.keys details, .rules details { margin: 0 0 1rem; }
summary { min-height: 2.75rem; display: list-item; padding: .625rem 0; }
@media (min-width: 64rem) {
  .rules { display: grid; grid-template-columns: minmax(0, 1fr) 22rem; gap: 0 1.5rem; align-items: start; }
  .rules-side { position: sticky; top: 1rem; max-height: calc(100vh - 2rem); overflow: auto; }
}
`;
