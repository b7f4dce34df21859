/** What the front door and a client's page need beside the one stylesheet. */
export const FRONT_STYLES = `
html:has(main > .emergency) { scroll-padding-top: min(9rem, 45vh); }
main > .emergency { position: sticky; top: 0; z-index: 1; max-height: 45vh; overflow: auto; font-size: .875rem; line-height: 1.35; padding: .5rem 1rem; }
.asked { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(15rem, 100%), 1fr)); gap: 1rem; margin: 0 0 1.25rem; }
.asked .whole { grid-column: 1 / -1; }
.asked label { display: block; font-weight: 600; margin: 0 0 .25rem; }
.asked input, .asked select, .tell input { font: inherit; color: inherit; width: 100%; min-height: 2.75rem; padding: .5rem; background: var(--paper); border: 1px solid var(--soft); border-radius: .5rem; }
.asked [aria-invalid] { border: 2px solid var(--alarm); }
.ask .first { width: 100%; min-height: 3rem; margin: 0 0 .75rem; border-color: var(--accent); }
.ways { padding-left: 1.125rem; }
.ways li { margin: 0 0 .5rem; }
.steps details { grid-column: 1 / -1; font-size: .9375rem; font-weight: 400; }
.steps details p { margin: 0 0 .5rem; white-space: pre-line; }
main summary { color: var(--accent); font-weight: 600; min-height: 2.75rem; padding: .625rem 0; width: fit-content; }
.tell { border-bottom: 1px solid var(--line); padding-bottom: .5rem; display: grid; grid-template-columns: minmax(0, 1fr); gap: .625rem; margin: 1rem 0; border-top: 1px solid var(--line); }
.tell h3 { margin: 1rem 0 0; } .tell p { margin: 0; }
.tell > button { font: inherit; font-weight: 600; min-height: 3rem; padding: .5rem 1rem; cursor: pointer; border-radius: .5rem; border: 1px solid var(--accent); background: var(--accent); color: var(--card); }
.tell > .unpressed { position: absolute; width: 1px; min-height: 0; height: 1px; padding: 0; border: 0; opacity: 0; pointer-events: none; }
.tell > .alarm { border: 2px solid var(--alarm); background: var(--alarm-paper); color: var(--alarm); }
.tell label { display: block; margin: 0 0 .25rem; }
.tell .faults { margin: 0; }
.tell input { max-width: 20rem; min-width: 0; overflow: hidden; }
.kept { border: 2px solid var(--accent); border-radius: .75rem; background: var(--card); padding: .75rem 1rem; font-weight: 600; }
.shows { border-left: .375rem solid var(--alarm); padding-left: .75rem; font-weight: 600; }
main a.button { min-height: 2.75rem; }
.address { user-select: all; }
.qr { width: 14rem; max-width: 100%; height: auto; }
@media (min-width: 36rem) { .tell { grid-template-columns: repeat(auto-fit, minmax(14rem, 1fr)); } .tell h3, .tell p, .tell details { grid-column: 1 / -1; } }
@media (max-width: 43rem) { main > .emergency { margin-inline: -1rem; border-width: 2px 0; border-radius: 0; } }
@media (max-width: 20rem) { main { padding-inline: .75rem; } main > .emergency { margin-inline: -.75rem; padding-inline: .75rem; } .card { padding: .75rem; } h2 { font-size: 1.25rem; hyphens: auto; overflow-wrap: anywhere; } .button, .tell > button, select { max-width: 100%; overflow-wrap: anywhere; } .steps li { grid-template-columns: 1fr; } .steps .state { grid-column: 1; grid-row: auto; } }
@media print { main > .emergency { position: static; max-height: none; } }
`;
