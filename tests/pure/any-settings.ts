/** Random settings that pass their door, with texts that no form likes. */
import * as fc from "fast-check";
import { type Settings, settingsSchema } from "../../src/settings.ts";

const ODD = [
  "a\nb",
  "a\r\nb",
  "a\rb",
  "\u0000",
  "a,b;c",
  "a\tb",
  'say "so" & <b>',
  "\\n",
  "ü\u200bé",
  "{client}",
  "- x",
  "2 days",
  "yes",
];
const plain = fc.stringMatching(/^[A-Za-z0-9*'.-][A-Za-z0-9*' .-]{0,12}[A-Za-z0-9*'.-]$/);
const odd = fc.oneof(plain, fc.constantFrom(...ODD), fc.string({ unit: "grapheme", minLength: 1, maxLength: 12 }));

const lawfulDates = ["2026-12-24", "2026-12-24/2027-01-02", " 2026-12-24 / 2027-01-02"];
const lawfulLengths = ["PT48H", "PT1440M", "PT01H", "PT1H30M", "PT336H"];
const lawfulSpans = ["09:00-17:30", "00:00-24:00", "08:30 - 13:00"];
const days = fc.shuffledSubarray(["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const, { minLength: 1 });

/**
 * @param text what stands where a person's words may stand
 * @param isLawful what the rules refuse is left out
 */
const input = (text: fc.Arbitrary<string>, isLawful: boolean) => {
  const besides = (lawful: readonly string[], ...others: string[]) =>
    fc.constantFrom(...lawful, ...(isLawful ? [] : others));
  const datesOf = besides(lawfulDates, "soon");
  const lengthOf = besides(lawfulLengths, "PT0H", "P2D", "48 hours", "x");
  const spanOf = besides(lawfulSpans, "9-5");
  const orNull = fc.option(text, { nil: null });
  const words = fc.array(text, { maxLength: 4 });
  const opening = fc.record(
    Object.fromEntries(
      ["mon", "tue", "wed", "thu", "fri", "sat", "sun", "holiday"].map((day) => [
        day,
        fc.array(spanOf, { maxLength: 2 }),
      ]),
    ),
    { requiredKeys: [] },
  );
  const onFile = fc.record({
    months: fc.option(fc.integer({ min: 1, max: 120 }), { nil: null }),
    product: fc.constantFrom("same", "any"),
    shade: fc.constantFrom("not-darker", "any"),
  });
  const test = (route: string) =>
    fc.record(
      {
        route: fc.constant(route),
        protocol: isLawful
          ? fc.constantFrom<string | string[]>("salon-48h", ["two-looks-48h", "salon-48h"], "home-kit-120h")
          : fc.oneof(text, fc.uniqueArray(text, { minLength: 1, maxLength: 3 }), fc.constant("salon-48h")),
        kit: fc.record(
          { name: orNull, instructions: orNull, ownColour: isLawful ? fc.constant(false) : fc.boolean() },
          { requiredKeys: [] },
        ),
        onFile: fc.option(onFile, { nil: null }),
        screening: fc.record({ margin: lengthOf, opens: lengthOf }, { requiredKeys: [] }),
      },
      { requiredKeys: ["route", "protocol"] },
    );
  return fc.record(
    {
      name: text,
      zone: fc.constantFrom("Europe/London", "America/New_York", "Australia/Lord_Howe"),
      country: fc.constantFrom("GB", "IE", null),
      language: fc.constantFrom("en-GB", "en-US"),
      contact: fc.record({ phone: orNull, email: orNull, address: orNull }, { requiredKeys: [] }),
      staff: words,
      services: fc.uniqueArray(
        fc.record(
          {
            name: text,
            words: fc.array(text, { minLength: 1, maxLength: 4 }),
            product: orNull,
            shade: fc.option(fc.constantFrom(1, 2.5, 10), { nil: null }),
          },
          { requiredKeys: ["name", "words"] },
        ),
        { minLength: 1, maxLength: 3, selector: ({ name }) => name.trim() },
      ),
      notColour: words,
      testWords: words,
      clientFrom: fc.array(isLawful ? fc.constantFrom("attendee", "{client} - {service}") : text, {
        minLength: 1,
        maxLength: 3,
      }),
      tests: fc
        .tuple(test("home-kit"), test("in-salon"), fc.nat({ max: 3 }))
        .map(([kit, walk, which]) => [[kit, walk], [walk, kit], [kit], [walk]][which]),
      protocols: fc.dictionary(
        text.filter((name) => name !== "__proto__"),
        fc.constant({ lead: { least: "PT48H" }, readings: [{ after: "PT48H" }], source: { note: "a\r\nb" } }),
        { maxKeys: 2 },
      ),
      questions: fc.option(fc.constant([{ id: "own", text: "Line one\nline two?", yes: "test-needed" }]), {
        nil: null,
      }),
      opening: fc.option(
        opening.map((each) => (isLawful ? { ...each, tue: ["09:00-17:30"] } : each)),
        { nil: null },
      ),
      lastWalkIn: lengthOf,
      closed: fc.array(datesOf, { maxLength: 3 }),
      holidays: fc.option(
        fc.record(
          {
            country: fc.constantFrom("GB", null),
            region: isLawful ? fc.constant(null) : orNull,
            add: fc.array(datesOf, { maxLength: 2 }),
          },
          { requiredKeys: [] },
        ),
        { nil: null },
      ),
      clientHours: spanOf,
      post: fc.record(
        {
          collection: days,
          lastCollection: besides(["16:30"], "4 pm"),
          delivery: days,
          deliveredBy: fc.constantFrom("18:00", "24:00"),
          transit: fc.constantFrom(1, 3, ...(isLawful ? [] : [2.5])),
          count: fc.constantFrom("delivery", "calendar"),
          closed: fc.array(datesOf, { maxLength: 2 }),
          holidays: fc.boolean(),
        },
        { requiredKeys: [] },
      ),
      show: fc.record({ clients: fc.constantFrom("initials", "names"), words: fc.constantFrom("plain", "discreet") }),
      retention: fc.record({ evidence: besides(["P6Y", "P1Y6M"], "x"), rest: fc.constantFrom("P2Y", "P90D") }),
    },
    { requiredKeys: ["name", "zone", "tests"] },
  );
};

const through = (text: fc.Arbitrary<string>, isLawful = false): fc.Arbitrary<Settings> =>
  input(text, isLawful)
    .map((each) => settingsSchema.safeParse(each))
    .filter(({ success }) => success)
    .map(({ data }) => data as Settings);

/** Settings as they may be stored, odd words and all. */
export const anySettings = through(odd);
/** Settings whose words are plain. */
export const plainSettings = through(plain);
/** Settings that the rules accept, odd words and all. */
export const lawfulSettings = through(odd, true);
