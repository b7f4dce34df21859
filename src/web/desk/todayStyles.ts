/** The desk's lists: what is due, whom to telephone, what is new. */
export const TODAY_STYLES = `
.wide-page h1 { font-size: 1.5rem; color: inherit; }
.panel { background: var(--card); border: 1px solid var(--line); border-radius: .75rem; padding: 1rem 1.25rem; margin: 0 0 1.25rem; }
.panel > h2, .wide-page h2 { font-size: 1.25rem; margin: 0 0 .5rem; }
.panel h3 { font-size: 1rem; margin: 1.25rem 0 .25rem; }
.panel.unread { border: 2px solid var(--alarm); background: var(--alarm-paper); }
.panel.unread h2 { color: var(--alarm); }
.count { display: inline-block; min-width: 1.5rem; text-align: center; border: 1px solid var(--line); border-radius: 1rem; padding: 0 .375rem; font-size: .875rem; font-weight: 400; }
.rows { list-style: none; margin: 0; padding: 0; }
.rows > li { border-top: 1px solid var(--line); padding: .625rem 0; display: grid; grid-template-columns: 12.5rem 14rem minmax(0, 1fr); gap: .25rem 1rem; align-items: start; }
.rows.calls > li { grid-template-columns: 14rem minmax(0, 1fr); }
.rows > li:first-child { border-top: 0; }
.rows .when { font-size: 1rem; color: inherit; grid-column: auto; font-variant-numeric: tabular-nums; }
.rows .about > :last-child { margin-bottom: 0; }
.rows .about p { margin: 0 0 .375rem; }
.rows span.about > .small, .rows .line { display: block; }
.calls .about { display: flex; flex-wrap: wrap; gap: .5rem; align-items: center; } .calls .reasons, .calls .about > p:not(.reach), .calls details[open] { flex: 1 0 100%; margin: 0; } .calls .about .reach { margin: 0; }
.late-mark { color: var(--alarm); }
.booked { display: flex; flex-direction: column; overflow-wrap: anywhere; }
.booked a { padding: .125rem 0; }
.booked a:first-child { font-weight: 600; }
.presses { display: flex; flex-wrap: wrap; gap: .5rem; }
.record { display: flex; flex-wrap: wrap; gap: .25rem 1rem; align-items: center; }
.record details[open] { flex-basis: 100%; }
.record summary, .calls summary { font-size: .9375rem; color: var(--soft); padding: .625rem 0; }
.fields { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(14rem, 100%), 1fr)); gap: .5rem 1rem; margin: .5rem 0; }
.fields label span { display: block; font-size: .875rem; color: var(--soft); }
.fields input, .fields select, .fields textarea { width: 100%; }
.standing { display: inline-flex; align-items: center; gap: .375rem; margin-right: .75rem; font-weight: 600; white-space: nowrap; }
.standing.late, .standing.no-time, .standing.stop { color: var(--alarm); }
.standing.ready { color: var(--accent); }
.reasons { margin: 0 0 .375rem; padding-left: 1.125rem; }
.links { margin: 0; padding-left: 1.125rem; }
.links a { display: inline-block; padding: .25rem 0; }
.reach { display: flex; flex-wrap: wrap; gap: .5rem; }
.number { display: inline-block; }
.reach .button { padding: .5rem .875rem; }
.words { white-space: pre-wrap; background: var(--paper); border-radius: .5rem; padding: .5rem .75rem; }
.stack { display: flex; flex-direction: column; gap: .75rem; align-items: flex-start; max-width: 34rem; }
.stack label { font-weight: 600; }
.stack input:not([type=checkbox], [type=radio]) { width: 100%; }
.check { display: flex; gap: .625rem; align-items: flex-start; font-weight: 400 !important; }
.check input { width: 1.25rem; height: 1.25rem; margin: .125rem 0 0; flex: none; accent-color: var(--accent); }
.steps-list > li { grid-template-columns: 13rem minmax(0, 1fr) minmax(0, 1fr); }
.ways > li { grid-template-columns: 10rem minmax(0, 1fr) auto; }
.steps-list .rule { display: block; }
.fields .whole { grid-column: 1 / -1; }
.fields > button { align-self: end; }
.beside li { margin-bottom: .375rem; } .beside li .small { display: block; }
.beside { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(20rem, 100%), 1fr)); gap: 1rem 2rem; }
.stands { font-size: 1.25rem; }
@media (max-width: 48rem) {
  .rows > li, .rows.calls > li, .steps-list > li, .ways > li { grid-template-columns: minmax(0, 1fr); }
  .panel { padding: .875rem 1rem; }
}
`;
