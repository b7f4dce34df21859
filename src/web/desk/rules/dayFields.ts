/** Opening hours and public holidays as fields. */
import { type Settings, WEEKDAYS } from "../../../settings.ts";
import { isAsShown, KINDS } from "./fieldKinds.ts";
import { hasAny, readField, showField, type Typed } from "./sentFields.ts";

export const OPENING_DAYS = [...WEEKDAYS, "holiday"] as const;

export const showOpening = (into: Typed, opening: Settings["opening"]): void => {
  into.append("opening", opening === null ? "none" : "kept");
  for (const day of OPENING_DAYS) showField(into, `opening.${day}`, KINDS.spans, opening?.[day]);
};

export const readOpening = (typed: Typed, stored: Settings["opening"]): unknown => {
  if (!hasAny(typed, "opening")) return stored;
  const isKept = readField(typed, "opening", KINDS.text, stored === null ? "none" : "kept") === "kept";
  if (!isKept) return null;
  return Object.fromEntries(
    OPENING_DAYS.flatMap((day) => {
      const was = stored?.[day];
      const sent = typed.getAll(`opening.${day}`);
      const isSame = !typed.has(`opening.${day}`) || (was === undefined && isAsShown(sent, [], KINDS.spans));
      if (isSame) return was === undefined ? [] : [[day, was]];
      return [[day, readField(typed, `opening.${day}`, KINDS.spans, was)]];
    }),
  );
};

type Holidays = Settings["holidays"];

/** Whose holidays are kept: of the salon's country, of one that is named, or of none. */
const ofWhom = (holidays: Holidays): string => {
  if (holidays === null) return "none";
  const country = holidays?.country;
  return country === undefined ? "own" : country === null ? "none" : "named";
};

const HOLIDAY_FIELDS = ["holidays", "holidays.country", "holidays.region", "holidays.add"] as const;

const shown = (holidays: Holidays): Typed => {
  const into = new URLSearchParams();
  showField(into, "holidays", KINDS.text, ofWhom(holidays));
  showField(into, "holidays.country", KINDS.code, holidays?.country);
  showField(into, "holidays.region", KINDS.optional, holidays?.region);
  showField(into, "holidays.add", KINDS.dates, holidays?.add ?? []);
  return into;
};

export const showHolidays = (into: Typed, holidays: Holidays): void => {
  for (const [name, text] of shown(holidays)) into.append(name, text);
};

/** Several settings say one thing here: where nothing was touched, the one that is stored stays. */
export const readHolidays = (typed: Typed, stored: Holidays): unknown => {
  const was = shown(stored);
  const isTouched = HOLIDAY_FIELDS.some(
    (name) => typed.has(name) && !isAsShown(typed.getAll(name), was.getAll(name), { isLong: name === "holidays.add" }),
  );
  if (!isTouched) return stored;
  const whose = typed.get("holidays") ?? ofWhom(stored);
  const country = readField(typed, "holidays.country", KINDS.code, stored?.country ?? null);
  return {
    ...(whose === "own" ? {} : { country: whose === "named" ? country : null }),
    region: readField(typed, "holidays.region", KINDS.optional, stored?.region ?? null),
    add: readField(typed, "holidays.add", KINDS.dates, stored?.add ?? []),
  };
};
