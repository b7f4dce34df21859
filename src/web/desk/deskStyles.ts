/** What the desk's pages need beside the one stylesheet. */
import { createHash } from "node:crypto";
import { RULES_STYLES } from "./rules/rulesStyles.ts";
import { TODAY_STYLES } from "./todayStyles.ts";
import { WEEKS_STYLES } from "./weeksStyles.ts";
import { REGISTER_STYLES } from "./registerStyles.ts";

export const DESK_STYLES = `
.top { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem 1rem; padding: .5rem 1rem; border-bottom: 1px solid var(--line); background: var(--card); }
.top .salon { margin: 0; font-weight: 700; }
.top nav { flex: 1 1 36rem; }
.top nav ul { display: flex; flex-wrap: wrap; gap: .25rem; list-style: none; margin: 0; padding: 0; }
.top nav a { display: block; padding: .5rem .625rem; border-radius: .5rem; color: inherit; text-decoration: none; min-height: 2.75rem; }
.top nav a:hover { text-decoration: underline; }
.top nav a[aria-current] { background: var(--ink); color: var(--paper); font-weight: 600; }
.who, .who form { display: flex; flex-wrap: wrap; align-items: center; gap: .5rem; }
.who label { font-size: .9375rem; color: var(--soft); }
.skip { position: absolute; left: -99rem; }
.skip:focus { position: static; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.said { border-left: .25rem solid var(--accent); background: var(--card); padding: .5rem .75rem; margin: 0 0 1rem; }
.cautions { margin-top: 2.5rem; border-top: 1px solid var(--line); padding-top: .75rem; font-size: .875rem; color: var(--soft); }
.press { display: inline-flex; flex-wrap: wrap; align-items: center; gap: .5rem; margin: 0; }
button, select, input, textarea { font: inherit; color: inherit; }
button { cursor: pointer; border-radius: .5rem; padding: .5rem .875rem; border: 1px solid var(--accent); background: var(--card); color: var(--accent); font-weight: 600; min-height: 2.75rem; }
button.first { background: var(--accent); color: var(--card); }
button.alarm { border-width: 2px; border-color: var(--alarm); color: var(--alarm); background: var(--alarm-paper); }
button.plain { border-color: var(--line); color: inherit; font-weight: 400; }
select, input:not([type=checkbox], [type=radio], [type=hidden]), textarea { background: var(--paper); border: 1px solid var(--soft); border-radius: .5rem; padding: .5rem; max-width: 100%; min-height: 2.75rem; }
${RULES_STYLES}
${TODAY_STYLES}
${WEEKS_STYLES}
${REGISTER_STYLES}`;

export const DESK_STYLES_ADDRESS = `/desk.css?${createHash("sha256").update(DESK_STYLES).digest("base64url").slice(0, 8)}`;
