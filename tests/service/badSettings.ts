/** Settings that no salon can have: every field with what does not belong into it. */

/** Names and places that lead to a field. */
type Way = readonly (string | number)[];

/** What a hand that knows no better may write in a field, one after another. */
export const WRITTEN: readonly unknown[] = [
  null,
  0,
  -1,
  1.5,
  true,
  "",
  "  ",
  "nonsense\nin two lines",
  [],
  {},
  [null],
  [[]],
  { a: 1 },
  1e300,
  "x".repeat(300),
];

/** Settings with one field set, along its way. */
export const withField = (way: Way, value: unknown): object => {
  const [first, ...rest] = way;
  if (first === undefined) return value as object;
  if (typeof first === "number") return [withField(rest, value)];
  return { [first]: rest.length === 0 ? value : withField(rest, value) };
};

/** Every field of settings, with what may stand there after all. */
const WITH_ALLOWED: readonly (readonly [way: Way, ...allowed: unknown[]])[] = [
  [["name"], "nonsense\nin two lines"],
  [["zone"]],
  [["country"], null],
  [["language"]],
  [["tests"]],
  [["tests", 0]],
  [["tests", 0, "route"]],
  [["tests", 0, "protocol"]],
  [["opening"], null],
  [["opening", "mon"], []],
  [["opening", "mon", 0]],
  [["clientHours"]],
  [["lastWalkIn"]],
  [["closed"], []],
  [["closed", 0]],
  [["post"], {}],
  [["post", "transit"]],
  [["post", "count"]],
  [["post", "collection"]],
  [["post", "delivery", 0]],
  [["post", "deliveredBy"]],
  [["post", "holidays"], true],
  [["holidays"], null, {}],
  [["holidays", "country"], null],
  [["protocols"], {}],
  [["protocols", "own"]],
  [["protocols", "own", "lead"]],
  [["services"]],
  [["diaries"]],
  [["questions"], null],
  [["retention", "evidence"]],
  [["show", "clients"]],
];

export const FIELDS = WITH_ALLOWED.map(([way, ...allowed]) => ({
  way,
  /** What stands there rightly, as JSON. */
  allowed: new Set(allowed.map((each) => JSON.stringify(each))),
}));
