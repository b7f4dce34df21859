/** A feed as jCal (RFC 7265), from the text it is otherwise served as: both say the same, and only one writer speaks. */
import ICAL from "ical.js";

type Property = [name: string, parameters: Record<string, unknown>, type: string, ...values: unknown[]];
type Component = [name: string, properties: Property[], components: Component[]];

/** Texts that the library does not know (RFC 7986 §5): it would leave them escaped, and call their type unknown. */
const TEXTS: ReadonlySet<string> = new Set(["name", "color"]);

const unescape = (value: unknown): unknown =>
  typeof value === "string"
    ? value.replace(/\\(.)/g, (_, character: string) => (/n/i.test(character) ? "\n" : character))
    : value;

const asText = ([name, parameters, , ...values]: Property): Property => [
  name,
  parameters,
  "text",
  ...values.map(unescape),
];

/** For `application/calendar+json`. @param text a whole calendar, as writeFeed gives it */
export const writeJcal = (text: string): string => {
  const calendar = ICAL.parse(text) as unknown as Component;
  const [name, properties, components] = calendar;
  return JSON.stringify([name, properties.map((each) => (TEXTS.has(each[0]) ? asText(each) : each)), components]);
};
