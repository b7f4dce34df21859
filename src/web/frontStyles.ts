/** What the front door and a client's page need beside the one stylesheet. */
export const FRONT_STYLES = `
.asked { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(15rem, 100%), 1fr)); gap: 1rem; margin: 0 0 1.25rem; }
.asked .whole { grid-column: 1 / -1; }
.asked label { display: block; font-weight: 600; margin: 0 0 .25rem; }
.asked input, .asked select { font: inherit; color: inherit; width: 100%; min-height: 2.75rem; padding: .5rem; background: var(--paper); border: 1px solid var(--soft); border-radius: .5rem; }
.asked [aria-invalid] { border: 2px solid var(--alarm); }
.ask .first { width: 100%; min-height: 3rem; margin: 0 0 .75rem; border-color: var(--accent); }
.ways { padding-left: 1.125rem; }
.ways li { margin: 0 0 .5rem; }
.steps details { grid-column: 1 / -1; font-size: .9375rem; }
.steps summary { color: var(--accent); min-height: 2.75rem; padding: .625rem 0; width: fit-content; }
.steps details p { margin: 0 0 .5rem; white-space: pre-line; }
`;
