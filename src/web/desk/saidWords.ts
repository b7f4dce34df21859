/** What a page says after a press: codes stand in addresses, so that nothing that somebody wrote ever does. */
export const SAID: Readonly<Record<string, string>> = {
  recorded: "Recorded.",
  seen: "Marked as read.",
  told: "Noted that she was told.",
  given: "Noted that she has her link.",
  who: "Set.",
};
