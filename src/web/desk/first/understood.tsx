/** What a first reading of the diary was taken for: how many of each, and some of them as they stand there. */
import type { FC } from "hono/jsx";
import { catalogueOf } from "../../../feed/language/catalogueOf.ts";
import { longTime } from "../../../feed/timeInWords.ts";
import type { EntryShown, EntryState } from "../../../salon/entries.ts";
import type { DiaryReport } from "../../../salon/types.ts";
import type { Settings } from "../../../settings.ts";
import { formatDay } from "../../../time/instant.ts";
import { Zone } from "../../../time/zone.ts";

export const SHOWN_STATES = ["booking", "test", "not-colour", "unsorted", "not-certain"] as const;
export type Examples = Readonly<Record<EntryState, readonly EntryShown[]>>;

/** One of them, and several. */
const HEADINGS: Readonly<Record<EntryState, readonly [one: string, several: string]>> = {
  booking: ["colour booking", "colour bookings"],
  test: ["skin test", "skin tests"],
  "not-colour": ["entry that is no colour", "entries that are no colour"],
  unsorted: ["entry not understood", "entries not understood"],
  "not-certain": ["entry whose time is not certain", "entries whose time is not certain"],
};

const MEANINGS: Readonly<Record<EntryState, string>> = {
  booking: "Each gets its deadlines.",
  test: "A test that stands in the diary is planned as it stands.",
  "not-colour": "Nothing is planned for these.",
  unsorted: "Nothing is planned for these until somebody says what they are.",
  "not-certain": "When these are cannot be read for certain, so nothing is planned. Mend them in the diary.",
};

/** Under which name a report counts them. */
const COUNTED: Readonly<Record<EntryState, string>> = {
  booking: "bookings",
  test: "tests",
  "not-colour": "notColour",
  unsorted: "unsorted",
  "not-certain": "skipped",
};

export const Understood: FC<{ report: DiaryReport; examples: Examples; settings: Settings }> = ({
  report,
  examples,
  settings,
}) => (
  <dl class="understood">
    {SHOWN_STATES.map((state) => {
      const count = report.counts[COUNTED[state]] ?? 0;
      return (
        <div class={count > 0 && (state === "unsorted" || state === "not-certain") ? "to-do" : undefined}>
          <dt>
            <strong>{count}</strong> {HEADINGS[state][count === 1 ? 0 : 1]}
          </dt>
          <dd>
            {MEANINGS[state]}
            {examples[state].length === 0 ? null : (
              <ul>
                {examples[state].map((entry) => (
                  <li>{exampleOf(entry, settings)}</li>
                ))}
              </ul>
            )}
          </dd>
        </div>
      );
    })}
  </dl>
);

/** One entry, and how it was taken. */
const exampleOf = (entry: EntryShown, { zone: name, language }: Settings): string => {
  const zone = Zone.named(name);
  const when =
    entry.start !== null && zone
      ? longTime(entry.start, zone, catalogueOf(language).time)
      : entry.date === null
        ? (entry.written ?? "")
        : formatDay(entry.date);
  const taken = [entry.service, entry.client && `for ${entry.client}`].filter(Boolean).join(" ");
  const why = entry.why?.text ?? "";
  const title = entry.summary === "" ? "An entry without a title" : `“${entry.summary}”`;
  return [`${title}, ${when}`, taken, why].filter(Boolean).join(": ");
};
