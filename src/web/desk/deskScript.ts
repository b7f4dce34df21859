/** The desk's small touches. Everything works without them. */
import { createHash } from "node:crypto";

export const DESK_SCRIPT = `
// A choice that stands alone is sent as it is made.
document.addEventListener("change", (event) => {
  if (event.target.matches("select[data-submit]")) event.target.form.requestSubmit();
});
document.addEventListener("click", (event) => {
  const button = event.target.closest("button[data-copy], button[data-print]");
  if (!button) return;
  if (button.hasAttribute("data-print")) { window.print(); return; }
  navigator.clipboard.writeText(button.getAttribute("data-copy")).then(() => {
    const said = button.querySelector("[data-copied]");
    if (said) said.textContent = "Copied";
  });
});
// What only a script can do is shown only where one runs.
for (const each of document.querySelectorAll("[data-script]")) each.hidden = false;
`;

export const DESK_SCRIPT_ADDRESS = `/desk.js?${createHash("sha256").update(DESK_SCRIPT).digest("base64url").slice(0, 8)}`;
