/** What the rules' form and the first visit need beside the desk's stylesheet. */
export const RULES_STYLES = `
.rules h2, .keys h2, .first-visit h2 { font-size: 1.25rem; margin-bottom: .75rem; }
.rule-parts { display: flex; flex-wrap: wrap; gap: 0 1.25rem; margin: 0 0 1rem; }
.rule-parts a { padding: .625rem 0; }
.rules-side .buttons { margin-bottom: .75rem; }
.rule-asked { margin: 0 0 1rem; min-width: 0; }
fieldset.rule-asked { border: 0; padding: 0; }
.rule-asked > label:not(.rule-tick), .rule-asked > legend { display: block; font-weight: 600; padding: 0; margin: 0 0 .25rem; }
.rule-asked input:not([type=checkbox], [type=hidden]), .rule-asked textarea, .rule-asked select { width: 100%; }
.rule-asked input.short { width: auto; }
.rule-asked.refused input, .rule-asked.refused textarea, .rule-asked.refused select { border: 2px solid var(--alarm); }
.rule-asked .mark { margin: .25rem 0 0; }
.rule-hint { font-size: .875rem; color: var(--soft); margin: .25rem 0 0; }
.card > .rule-hint, .rule-opening > .rule-hint { margin-bottom: 1rem; }
textarea { line-height: 1.4; resize: vertical; }
textarea.code, code { font-family: ui-monospace, monospace; }
textarea.code { font-size: .8125rem; }
.rule-pair, .rule-trio, .rule-week { display: grid; gap: 0 1.25rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 18rem), 1fr)); align-items: start; }
.rule-trio { grid-template-columns: repeat(auto-fit, minmax(min(100%, 11rem), 1fr)); }
.rule-tight { grid-template-columns: repeat(auto-fit, minmax(min(100%, 8rem), 1fr)); }
.rule-week { grid-template-columns: repeat(auto-fill, minmax(min(100%, 12rem), 1fr)); }
.rule-week .rule-asked { margin-bottom: .5rem; }
.rule-route, .rule-service { border: 1px solid var(--line); border-radius: .5rem; padding: .75rem 1rem 0; margin: 0 0 1rem; min-width: 0; }
.rule-route > legend, .rule-service > legend { font-weight: 700; padding: 0 .375rem; overflow-wrap: anywhere; }
.rule-route > .rule-hint { margin: 0 0 .75rem; }
.rule-ticks { display: grid; gap: .25rem; }
.rule-ticks.row { display: flex; flex-wrap: wrap; gap: .25rem .5rem; }
.rule-tick { display: flex; gap: .625rem; align-items: flex-start; padding: .625rem 0; min-height: 2.75rem; cursor: pointer; }
.rule-ticks.row .rule-tick { padding: .5rem .75rem; border: 1px solid var(--line); border-radius: .5rem; align-items: center; }
.rule-ticks.row .rule-tick:has(:checked) { border-color: var(--accent); box-shadow: inset 0 0 0 1px var(--accent); }
.rule-tick input { flex: none; width: 1.25rem; height: 1.25rem; margin: .125rem 0 0; accent-color: var(--accent); }
.rule-ticks.row .rule-tick input { margin: 0; }
.rule-tick .rule-more { display: block; font-size: .875rem; color: var(--soft); }
.rule-tick .rule-more em { font-style: normal; display: block; }
.rule-changes:focus { outline: none; }
.rule-changes .faults p { margin: .5rem 0 0; }
.rule-changes h2 { margin-bottom: .5rem; }
.rule-changes .rule-numbers { padding-left: 1.25rem; margin: 0 0 .75rem; font-weight: 600; }
.rule-changes .rule-each { padding-left: 1.25rem; margin: .5rem 0 .75rem; font-size: .9375rem; }
.rule-changes .rule-each li { margin-bottom: .625rem; overflow-wrap: anywhere; }
.rule-changes .rule-was, .rule-changes .rule-then { display: block; color: var(--soft); }
.rule-changes .rule-then { color: inherit; }
.rule-changes[aria-busy=true] { opacity: .6; }
.key-shown { border: 2px dashed var(--soft); border-radius: .5rem; padding: .75rem 1rem; margin: 0 0 1rem; }
.key-shown code { font-size: 1rem; }
.feed-address { display: flex; flex-wrap: wrap; gap: 1rem 1.5rem; align-items: flex-start; margin-bottom: .75rem; }
.feed-address > div { flex: 1 1 16rem; min-width: 0; }
.feed-address .qr { width: 10rem; height: 10rem; flex: none; border-radius: .5rem; }
.keys details, .rules details { margin: 0 0 1rem; }
summary { min-height: 2.75rem; display: list-item; padding: .625rem 0; }
.visit-steps { display: flex; flex-wrap: wrap; gap: .25rem 1.5rem; list-style: none; counter-reset: visit; padding: 0; margin: 0 0 1.25rem; color: var(--soft); }
.visit-steps li { counter-increment: visit; padding: .25rem 0; }
.visit-steps li::before { content: counter(visit) ". "; }
.visit-steps li.visit-done::before { content: "\\2713\\00a0"; }
.visit-steps li[aria-current] { color: var(--ink); font-weight: 700; border-bottom: .1875rem solid var(--accent); }
main.wide-page .first-visit { max-width: 52rem; }
.understood { margin: 0; }
.understood > div { border-top: 1px solid var(--line); padding: .75rem 0; display: grid; grid-template-columns: minmax(0, 14rem) minmax(0, 1fr); gap: .25rem 1.25rem; }
.understood strong { font-size: 1.25rem; }
.understood dd { margin: 0; color: var(--soft); }
.understood ul { margin: .25rem 0 0; padding-left: 1.125rem; color: var(--ink); overflow-wrap: anywhere; }
.understood .to-do dt::after { content: " – needs you"; color: var(--alarm); font-weight: 600; }
.title-asked { border-top: 1px solid var(--line); padding: .75rem 0; display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 16rem); gap: .25rem 1.25rem; align-items: center; overflow-wrap: anywhere; }
.title-asked .rule-hint { margin: 0; }
.title-asked label .rule-hint { display: block; }
@media (max-width: 40rem) { .understood > div, .title-asked { grid-template-columns: minmax(0, 1fr); } }
/* What is not asked where another choice is made. A browser without :has shows it all. */
.rule-route:has(option[value=protocol]:checked) .rule-terms, .rule-route:has(option[value=never]:checked) .rule-terms { display: none; }
.rule-holidays:has(option[value=own]:checked) .rule-named, .rule-holidays:has(option[value=none]:checked) .rule-named { display: none; }
.rule-opening:has(option[value=none]:checked) .rule-week, .rule-opening:has(option[value=none]:checked) > .rule-hint:not(.rule-unkept) { display: none; }
form:has([name=tests] option[value=in-salon]:checked) .route-home-kit, form:has([name=tests] option[value=home-kit]:checked) .route-in-salon { display: none; }
.rule-opening .rule-unkept { display: none; color: var(--alarm); }
.rule-opening:has(option[value=none]:checked) .rule-unkept { display: block; }
.rules-side .buttons button { flex: 1 1 auto; }
@media (min-width: 64rem) {
  .rules { display: grid; grid-template-columns: minmax(0, 1fr) 22rem; gap: 0 1.5rem; align-items: start; }
  .rules-side { position: sticky; top: 1rem; max-height: calc(100vh - 2rem); overflow: auto; }
  .rules-side .card { margin: 0; }
}
`;
