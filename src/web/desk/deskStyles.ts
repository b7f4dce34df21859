/** What the desk's pages need beside the one stylesheet. */
import { createHash } from "node:crypto";
import { RULES_STYLES } from "./rules/rulesStyles.ts";
import { TODAY_STYLES } from "./todayStyles.ts";
import { WEEKS_STYLES } from "./weeksStyles.ts";
import { REGISTER_STYLES } from "./registerStyles.ts";

export const DESK_STYLES = `
.top { display: flex; flex-wrap: wrap; align-items: center; gap: 0 1rem; padding: .375rem 1rem; border-bottom: 1px solid var(--line); background: var(--card); position: relative; }
.top .salon { margin: 0; font-weight: 700; }
.top nav { margin-left: auto; }
.top nav ul { display: flex; flex-wrap: wrap; gap: .25rem; list-style: none; margin: 0; padding: 0; }
.top nav a { display: block; padding: .5rem .625rem; border-radius: .5rem; color: inherit; text-decoration: none; min-height: 2.75rem; }
.top nav a:hover { text-decoration: underline; }
.top nav a[aria-current] { background: var(--ink); color: var(--paper); font-weight: 600; }
.top nav .longer { white-space: pre; }
.who > summary { color: var(--soft); font-size: .9375rem; }
.who-open { position: absolute; z-index: 3; top: 100%; left: 0; display: flex; flex-wrap: wrap; gap: .75rem 1.5rem; padding: .75rem 1rem; background: var(--card); border: 1px solid var(--line); border-width: 0 1px 1px 0; border-radius: 0 0 .75rem 0; box-shadow: 0 .25rem .75rem rgb(0 0 0 / .2); }
.who form { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem; }
.who label { font-size: .9375rem; color: var(--soft); }
.skip { position: absolute; left: -99rem; }
.skip:focus { position: static; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.said { position: sticky; top: 0; z-index: 1; border: 1px solid var(--line); border-left: .25rem solid var(--accent); background: var(--card); padding: .5rem .75rem; margin: 0 0 1rem; }
html:has(.said) { scroll-padding-top: 5rem; }
main:has(> .said) form button { animation: settle .4s; }
@keyframes settle { from, to { pointer-events: none; } }
.cautions { margin-top: 2.5rem; border-top: 1px solid var(--line); padding-top: .75rem; font-size: .875rem; color: var(--soft); }
.press { display: inline-flex; flex-wrap: wrap; align-items: center; gap: .5rem; margin: 0; }
button, select, input, textarea { font: inherit; color: inherit; }
button { cursor: pointer; border-radius: .5rem; padding: .5rem .875rem; border: 1px solid var(--accent); background: var(--card); color: var(--accent); font-weight: 600; min-height: 2.75rem; }
button.first { background: var(--accent); color: var(--card); }
button.alarm { border-width: 2px; border-color: var(--alarm); color: var(--alarm); background: var(--alarm-paper); }
button.plain { border-color: var(--line); color: inherit; font-weight: 400; }
select, input:not([type=checkbox], [type=radio], [type=hidden]), textarea { background: var(--paper); border: 1px solid var(--soft); border-radius: .5rem; padding: .5rem; max-width: 100%; min-height: 2.75rem; }
@media (max-width: 48rem) {
  .top { padding: .125rem 1rem; } .top .salon { flex: 1 1 0; overflow-wrap: anywhere; line-height: 1.2; font-size: 1rem; }
  .top nav { flex: 1 0 100%; margin: 0 -.5rem; } .top nav ul { justify-content: space-between; gap: 0; }
  .top nav a { padding: .6875rem .3125rem; font-size: .875rem; text-transform: capitalize; } .top nav .longer { display: none; }
  .who-open { right: 0; border-width: 0 0 1px; border-radius: 0; }
}
${RULES_STYLES}
${TODAY_STYLES}
${WEEKS_STYLES}
${REGISTER_STYLES}`;

export const DESK_STYLES_ADDRESS = `/desk.css?${createHash("sha256").update(DESK_STYLES).digest("base64url").slice(0, 8)}`;
