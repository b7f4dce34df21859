/** What the fields of the rules are called: at the field, where one is refused, and where one changed meanwhile. */
import type { Route } from "./testFields.ts";

export const DAY_NAMES: Readonly<Record<string, string>> = {
  mon: "Monday",
  tue: "Tuesday",
  wed: "Wednesday",
  thu: "Thursday",
  fri: "Friday",
  sat: "Saturday",
  sun: "Sunday",
  holiday: "Public holidays",
};

export const ROUTE_NAMES: Readonly<Record<Route, string>> = {
  "home-kit": "Home kit by post",
  "in-salon": "Walk-in test at the salon",
};

const LABELS: Readonly<Record<string, string>> = {
  name: "Salon's name",
  "contact.phone": "Telephone",
  "contact.email": "E-mail",
  "contact.address": "Address",
  country: "Country",
  zone: "Time zone",
  language: "Language",
  staff: "Staff",
  services: "Services",
  notColour: "Words that are no colour",
  testWords: "Words that are a skin test",
  clientFrom: "Where the client's name stands",
  tests: "Which tests, in which order",
  protocols: "Protocols of your own",
  questions: "Health questions of your own",
  opening: "Opening hours",
  lastWalkIn: "Last walk-in before closing",
  closed: "Closed days",
  holidays: "Public holidays",
  "holidays.country": "Country of the holidays",
  "holidays.region": "Region",
  "holidays.add": "Holidays added",
  clientHours: "Hours for clients",
  post: "Post",
  "post.collection": "Days the post is collected",
  "post.lastCollection": "Last collection",
  "post.delivery": "Days the post is delivered",
  "post.deliveredBy": "Delivered by",
  "post.transit": "Days on the way",
  "post.count": "How those days are counted",
  "post.closed": "Days without post",
  "post.holidays": "Public holidays have no post",
  "show.clients": "Clients in the salon's feed",
  "show.words": "Titles in clients' calendars",
  "retention.evidence": "Records of tests and colours",
  "retention.rest": "Everything else",
};

const TEST_LABELS: Readonly<Record<string, string>> = {
  protocol: "Protocol",
  "kit.name": "Name of the kit",
  "kit.instructions": "The kit's instructions",
  onFile: "An earlier clear result",
  "onFile.months": "Counts for months",
  "onFile.product": "Product",
  "onFile.shade": "Shade",
  "screening.margin": "Health questions: answered ahead by",
  "screening.opens": "Health questions: open for",
};

const SERVICE_LABELS: Readonly<Record<string, string>> = {
  name: "Name",
  words: "Words",
  product: "Product",
  shade: "Shade",
  gone: "Take this service away",
};

/** A field's name beside its neighbours. */
export const labelOf = (name: string): string => {
  const [, test] = /^test\.[a-z-]+\.(.+)$/.exec(name) ?? [];
  const [, service] = /^service\.\d+\.(.+)$/.exec(name) ?? [];
  const [, day] = /^opening\.(.+)$/.exec(name) ?? [];
  if (test !== undefined) return TEST_LABELS[test] ?? test;
  if (service !== undefined) return SERVICE_LABELS[service] ?? service;
  return (day === undefined ? LABELS[name] : DAY_NAMES[day]) ?? name;
};

/** The same where its neighbours are not in sight: "Home kit by post: Protocol". */
export const fullLabelOf = (name: string): string => {
  const route = /^test\.([a-z-]+)\./.exec(name)?.[1];
  const row = /^service\.(\d+)\./.exec(name)?.[1];
  if (route !== undefined) return `${ROUTE_NAMES[route as Route]}: ${labelOf(name)}`;
  if (row !== undefined) return `Service ${Number(row) + 1}: ${labelOf(name)}`;
  return name.startsWith("opening.") ? `Opening hours: ${labelOf(name)}` : labelOf(name);
};
