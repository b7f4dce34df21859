/** What a page says after a press: codes stand in addresses, so that nothing that somebody wrote ever does. */
const SAID: Readonly<Record<string, string>> = {
  recorded: "Recorded.",
  seen: "Marked as read.",
  told: "Noted that she was told.",
  given: "Noted that she has her link.",
  who: "Set.",
  "diaries-read": "Every diary that has an address was asked just now. What came of it stands at each.",
  "diary-accepted": "The reading is accepted, and everything is counted anew by it.",
  "diary-dropped": "The diary is taken away.",
  "diary-added": "The diary is added.",
  "diary-taken": "The file was read.",
  "diary-held": "The file was read and is held back: see why, and decide.",
  "diary-refused": "The file could not be taken: see why. What was read before still holds.",
  answered: "Kept.",
  "answer-gone": "The answer is taken back: its entry, and those like it, are sorted by your words again.",
  "client-added": "She is a client now. Nothing stands in any diary for her yet.",
  "client-known": "She was known already: this is her page. Nothing was added.",
  "client-confirmed": "Noted: all of these are one person's.",
  "client-joined": "The two are one client from now on.",
  "client-apart": "Noted: they are two people.",
  "client-split": "Split off. This is the page of whoever the ticked appointments are.",
  "request-kept": "The request is kept, with the last day for an answer.",
  "request-answered": "Noted that it was answered.",
  "link-given": "Noted that she was given her link.",
  "link-renewed": "This is her new link. The one before opens nothing any more.",
  "erased-all": "She is erased, and nothing is kept.",
  "erased-kept": "She is erased. What must be kept is listed here, each to its date.",
  "erase-waits": "What nothing ahead needs is erased. The rest waits for what stands in a diary, as listed here.",
  "words-kept": "Your words are kept, and the diary was read anew by them.",
  "words-none": "Nothing was answered, so nothing has changed.",
  "rules-saved": "Saved. Plans, pages and calendars follow from now on.",
  "key-renewed": "The new key holds. Every other screen is signed out.",
  "feed-renewed": "The calendar has a new address. The one before shows nothing any more.",
};

/** Null where the address says none of them. */
export const saidWords = (said: string | null): string | null =>
  said !== null && Object.hasOwn(SAID, said) ? (SAID[said] ?? null) : null;
