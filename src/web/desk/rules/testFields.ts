/** The two ways of testing as fields: which in what order, and the rules of each. */
import type { Settings, TestSettings } from "../../../settings.ts";
import { KINDS } from "./fieldKinds.ts";
import { hasAny, readField, showField, type Typed } from "./sentFields.ts";

export const ROUTES = ["home-kit", "in-salon"] as const;
export type Route = (typeof ROUTES)[number];

/** In the order of preference. */
export const ORDERS: Readonly<Record<string, readonly Route[]>> = {
  "home-kit,in-salon": ["home-kit", "in-salon"],
  "in-salon,home-kit": ["in-salon", "home-kit"],
  "home-kit": ["home-kit"],
  "in-salon": ["in-salon"],
};

/** What a test is where the salon has none of that way yet. */
export const FIRST_PROTOCOL: Readonly<Record<Route, string>> = { "home-kit": "home-kit-120h", "in-salon": "salon-48h" };

const newTest = (route: Route): TestSettings => ({
  route,
  protocol: FIRST_PROTOCOL[route],
  kit: { name: null, instructions: null, ownColour: false },
  screening: { opens: "PT336H" },
});

const testOf = (tests: Settings["tests"], route: Route): TestSettings =>
  tests.find((test) => test.route === route) ?? newTest(route);

const protocolsOf = ({ protocol }: TestSettings): readonly string[] =>
  typeof protocol === "string" ? [protocol] : protocol;

const countsOf = ({ onFile }: TestSettings): string =>
  onFile === undefined ? "protocol" : onFile === null ? "never" : "terms";

const NO_TERMS = { months: null, product: "any", shade: "any" } as const;

export const showTests = (into: Typed, tests: Settings["tests"]): void => {
  into.append("tests", tests.map(({ route }) => route).join(","));
  for (const route of ROUTES) {
    const test = testOf(tests, route);
    const name = (field: string): string => `test.${route}.${field}`;
    showField(into, name("protocol"), KINDS.ticks, protocolsOf(test), true);
    showField(into, name("onFile"), KINDS.text, countsOf(test));
    const terms = test.onFile ?? NO_TERMS;
    showField(into, name("onFile.months"), KINDS.optionalNumber, terms.months);
    showField(into, name("onFile.product"), KINDS.text, terms.product);
    showField(into, name("onFile.shade"), KINDS.text, terms.shade);
    showField(into, name("screening.margin"), KINDS.length, test.screening.margin);
    showField(into, name("screening.opens"), KINDS.length, test.screening.opens);
    if (route !== "home-kit") continue;
    showField(into, name("kit.name"), KINDS.optional, test.kit.name);
    showField(into, name("kit.instructions"), KINDS.note, test.kit.instructions);
  }
};

export const readTests = (typed: Typed, stored: Settings["tests"]): unknown => {
  if (!typed.has("tests") && !hasAny(typed, "test.")) return stored;
  const order = readField(typed, "tests", KINDS.text, stored.map(({ route }) => route).join(",")) as string;
  return (ORDERS[order] ?? []).map((route) => readTest(typed, route, testOf(stored, route)));
};

const readTest = (typed: Typed, route: Route, stored: TestSettings): unknown => {
  const read = (field: string, kind: (typeof KINDS)[keyof typeof KINDS], value: unknown): unknown =>
    readField(typed, `test.${route}.${field}`, kind, value);
  const names = read("protocol", KINDS.ticks, protocolsOf(stored)) as readonly string[];
  const isSame =
    names.length === protocolsOf(stored).length && names.every((name) => protocolsOf(stored).includes(name));
  return {
    ...stored,
    protocol: isSame ? stored.protocol : names.length === 1 ? names[0] : names,
    kit: {
      ...stored.kit,
      name: read("kit.name", KINDS.optional, stored.kit.name),
      instructions: read("kit.instructions", KINDS.note, stored.kit.instructions),
    },
    onFile: readOnFile(typed, route, stored),
    screening: {
      margin: read("screening.margin", KINDS.length, stored.screening.margin),
      opens: read("screening.opens", KINDS.length, stored.screening.opens),
    },
  };
};

const readOnFile = (typed: Typed, route: Route, stored: TestSettings): unknown => {
  const name = `test.${route}.onFile`;
  const counts = readField(typed, name, KINDS.text, countsOf(stored));
  if (counts === "protocol") return undefined;
  if (counts === "never") return null;
  const terms = stored.onFile ?? NO_TERMS;
  return {
    months: readField(typed, `${name}.months`, KINDS.optionalNumber, terms.months),
    product: readField(typed, `${name}.product`, KINDS.text, terms.product),
    shade: readField(typed, `${name}.shade`, KINDS.text, terms.shade),
  };
};
