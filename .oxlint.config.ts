import { defineConfig } from "oxlint";

/** Each outside library has one door, and imports go one way; the linter says why. */
const DOORS: readonly { name: string; door: string; message: string }[] = [
  { name: "luxon", door: "src/time/zone.ts", message: "Time zones have one door: use Zone of src/time/zone.ts." },
  { name: "node-ical", door: "src/diary/parseEvents.ts", message: "The parser has one door: src/diary/parseEvents.ts." },
  { name: "ical.js", door: "src/diary/fileZone.ts", message: "Zones that a file defines have one door: src/diary/fileZone.ts; jCal has src/feed/writeJcal.ts." },
  { name: "rrule-temporal", door: "src/diary/expandAgain.ts", message: "The second reader of rules has one door: src/diary/expandAgain.ts." },
  { name: "temporal-polyfill", door: "src/diary/expandAgain.ts", message: "The second reader of rules has one door: src/diary/expandAgain.ts." },
  { name: "ical-generator", door: "src/feed/generator.ts", message: "The writer has one door: src/feed/generator.ts, which mends its faults." },
  { name: "date-holidays", door: "src/plan/holidays.ts", message: "Public holidays have one door: src/plan/holidays.ts, which loads them only when asked." },
  { name: "csv-parse/sync", door: "src/web/readCsv.ts", message: "Tables are read in one place: src/web/readCsv.ts." },
  { name: "csv-stringify/sync", door: "src/web/writeCsv.ts", message: "Tables are written in one place: src/web/writeCsv.ts, which quotes formulas." },
  { name: "uqr", door: "src/web/qr.tsx", message: "QR codes have one door: src/web/qr.tsx." },
  { name: "cloudflare:workers", door: "src/salon/SalonBase.ts", message: "The platform is met in src/salon/SalonBase.ts alone, so that the rest runs anywhere." },
];

/** Folders from the bottom up: each may import those before it in its list, and nothing else of src/. */
const LAYERS: readonly { folder: string; above: readonly string[]; message: string }[] = [
  { folder: "time", above: ["diary", "plan", "feed", "salon", "web", "local"], message: "time stands below everything and knows none of it." },
  { folder: "plan", above: ["diary", "feed", "salon", "web", "local"], message: "plan is pure arithmetic: it takes what it needs as arguments and knows no diary, feed, salon or page." },
  { folder: "diary", above: ["feed", "salon", "web", "local"], message: "diary reads text into bookings and knows nothing of feeds, salons or pages." },
  { folder: "feed", above: ["diary", "salon", "web", "local"], message: "feed turns a plan into words and bytes and knows nothing of diaries, salons or pages." },
  { folder: "salon", above: ["web", "local"], message: "salon answers web, never the other way round: pass what it needs as an argument." },
  { folder: "web", above: ["local"], message: "web is deployed; local is for one's own machine." },
];

/** Of libraries that serve for two things, the second. */
const SECOND_DOORS: readonly { name: string; door: string }[] = [{ name: "ical.js", door: "src/feed/writeJcal.ts" }];

const isDoor = (file: string | undefined, { name, door }: { name: string; door: string }) =>
  door === file || SECOND_DOORS.some((second) => second.name === name && second.door === file);

const doorsFor = (file: string | undefined) => DOORS.filter((each) => !isDoor(file, each)).map(({ name, message }) => ({ name, message }));

const restriction = (folder: string, file?: string) => {
  const layer = LAYERS.find((each) => each.folder === folder);
  const patterns = layer ? [{ group: layer.above.map((name) => `**/${name}/**`), message: layer.message }] : [];
  return { "no-restricted-imports": ["error", { paths: doorsFor(file), patterns }] as const };
};

export default defineConfig({
  plugins: ["typescript", "import", "unicorn", "oxc"],
  categories: { correctness: "error", suspicious: "error" },
  options: { typeAware: true },
  rules: {
    "typescript/no-floating-promises": "error",
    "typescript/no-misused-promises": "error",
    "typescript/no-explicit-any": "error",
    "typescript/switch-exhaustiveness-check": "error",
    "import/no-cycle": "error",
    // An index that the arithmetic keeps in range is asserted (`as`), since noUncheckedIndexedAccess cannot see it.
    "typescript/no-unsafe-type-assertion": "off",
    // tsc's noImplicitReturns does this with knowledge of exhaustive switches, which this rule lacks.
    "typescript/consistent-return": "off",
    // `fc.property`, `ICAL.parse`: as these libraries' own documentation writes them.
    "import/no-named-as-default-member": "off",
    // What is sorted here is always a copy just made; a second one would only cost memory on the edge.
    "unicorn/no-array-sort": "off",
  },
  ignorePatterns: ["node_modules", "fixtures"],
  overrides: [
    // A small function stands beside the test that reads it, even where it could stand elsewhere.
    { files: ["tests/**"], rules: { "unicorn/consistent-function-scoping": "off" } },
    { files: ["src/**"], rules: restriction("") },
    ...LAYERS.map(({ folder }) => ({ files: [`src/${folder}/**`], rules: restriction(folder) })),
    ...[...new Set([...DOORS, ...SECOND_DOORS].map(({ door }) => door))].map((door) => ({ files: [door], rules: restriction(door.split("/")[1] ?? "", door) })),
  ],
});
