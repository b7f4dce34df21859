/** The desk's small touches. Everything works without them. */
import { createHash } from "node:crypto";

export const DESK_SCRIPT = `
// A choice that stands alone is sent as it is made: by pointer, since the keyboard makes a choice of each that it passes.
let hasKeys = false;
document.addEventListener("keydown", () => { hasKeys = true; }, true);
document.addEventListener("pointerdown", () => { hasKeys = false; }, true);
document.addEventListener("change", (event) => {
  if (!hasKeys && event.target.matches("select[data-submit]")) event.target.form.requestSubmit();
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
// What a form would change is asked again while somebody types, and nothing is saved by that.
const form = document.querySelector("form[data-preview]");
if (form) {
  let timer, asked;
  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(async () => {
      asked?.abort();
      asked = new AbortController();
      const shown = document.getElementById("changes");
      shown.setAttribute("aria-busy", "true");
      const body = new URLSearchParams(new FormData(form));
      body.set("do", "preview");
      try {
        const answer = await fetch(form.action, { method: "POST", body, signal: asked.signal });
        const made = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("changes");
        if (made) shown.replaceChildren(...made.childNodes);
      } catch {
        // What stands there is of before, and the button asks again.
      }
      if (!asked.signal.aborted) shown.removeAttribute("aria-busy");
    }, 700);
  });
}
// What only a script can do is shown only where one runs.
for (const each of document.querySelectorAll("[data-script]")) each.hidden = false;
`;

export const DESK_SCRIPT_ADDRESS = `/desk.js?${createHash("sha256").update(DESK_SCRIPT).digest("base64url").slice(0, 8)}`;
