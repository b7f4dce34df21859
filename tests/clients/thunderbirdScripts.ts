/**
 * What is asked of a running Thunderbird in its own JavaScript: bodies of functions, run in its main window.
 * They press what a person would press, or read what a person would see.
 */

const CAL = `const { cal } = ChromeUtils.importESModule("resource:///modules/calendar/calUtils.sys.mjs");`;
const CALENDAR = `${CAL} const calendar = cal.manager.getCalendars().find(({ id }) => id === arguments[0]);`;

/** (width, height): the window fills the screen; the search and the tasks beside the calendar are closed. */
export const ARRANGE = `
  window.moveTo(0, 0);
  window.resizeTo(arguments[0], arguments[1]);
  if (!document.getElementById("bottom-events-box").hidden) goDoCommand("calendar_show_unifinder_command");
  if (TodayPane.isVisible) document.getElementById("calendar_toggle_todaypane_command").doCommand();
`;

/** (view, date): shows the month, the weeks or the week that a date is in. */
export const SHOW = `
  ${CAL}
  window.switchCalendarView(arguments[0], true);
  goToDate(cal.createDateTime(arguments[1].replaceAll("-", "") + "T120000Z"));
`;

/** → the words of each event in sight, as the view's own elements hold them. */
export const IN_SIGHT = `
  const view = currentView();
  const items = view.querySelectorAll("calendar-month-day-box-item, calendar-event-box, calendar-editable-item");
  return [...items].filter((item) => item.checkVisibility()).map((item) => item.occurrence?.title ?? "");
`;

/** → each calendar of the list at the left: its words there, whether it is switched off, and its trouble if it shows one. */
export const CALENDAR_LIST = `
  return [...document.querySelectorAll("#calendar-list > li")].map((row) => ({
    name: row.querySelector(".calendar-name").textContent,
    isDisabled: row.hasAttribute("calendar-disabled"),
    trouble: row.hasAttribute("calendar-readfailed"),
  }));
`;

/** (calendar) as the button at the foot of the calendar list does. */
export const REFRESH = `${CALENDAR} calendar.refresh();`;

/** (calendar, uid) → the words of the little window that appears under a mouse pointer, a line each. */
export const TOOLTIP = `
  ${CALENDAR}
  const tip = getPreviewForItem(await calendar.getItem(arguments[1]));
  const head = [...tip.querySelectorAll("tr")].map(({ textContent }) => textContent.trim());
  return [...head, ...tip.querySelector(".tooltipBody").textContent.split("\\n")];
`;

/** (calendar, uid): opens an event as a double click does. */
export const OPEN_EVENT = `
  ${CALENDAR}
  window.openEventDialogForViewing(await calendar.getItem(arguments[1]));
`;

/**
 * → the address and the words of every window beside the main one, and how far its own frame of words has been scrolled
 * as it opened; a question or an alarm would be one of them.
 */
export const OTHER_WINDOWS = `
  return [...Services.wm.getEnumerator(null)]
    .filter((each) => each !== window)
    .map((each) => {
      const inner = each.document.querySelector("iframe.item-description")?.contentWindow;
      const words = [each.document.documentElement?.innerText ?? "", inner?.document.body?.innerText ?? ""];
      return { address: each.location.href, text: words.join("\\n").trim(), scrolled: Math.round(inner?.scrollY ?? 0) };
    });
`;

export const CLOSE_OTHER_WINDOWS = `
  for (const each of Services.wm.getEnumerator(null)) if (each !== window) each.close();
`;

/**
 * → every warning and error that Thunderbird's calendar has written: a time zone it does not know, a line it cannot read.
 * They go to the console's own store, and errors that nobody caught to the list beside it.
 */
export const COMPLAINTS = `
  const store = Cc["@mozilla.org/consoleAPI-storage;1"].getService(Ci.nsIConsoleAPIStorage);
  const said = store.getEvents().filter(({ level }) => level === "warn" || level === "error");
  const lines = said.map((each) => each.prefix + ": " + [...each.arguments].map(String).join(" ").slice(0, 300));
  return [...lines, ...Services.console.getMessageArray().map(String)].filter((text) => /calendar|ical|timezone/i.test(text));
`;

/** (address) → what the subscribe dialog finds at an address. */
export const DETECT = `
  const { CalICSProvider } = ChromeUtils.importESModule("resource:///modules/CalICSProvider.sys.mjs");
  const found = await CalICSProvider.detectCalendars("", "", arguments[0]);
  return found.map(({ name, type }) => ({ name, type }));
`;
