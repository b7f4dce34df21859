/** Reads the evidence page as a person does, heading by heading and line by line, against the log. */
import type { Holder, LogBooking, LogConsent, LogDeed, LogRecord, LogScreening } from "./log.ts";
import type { World } from "./world.ts";

const KINDS: Readonly<Record<string, string>> = {
  screened: "Health questions",
  posted: "Kit posted",
  arrived: "Kit arrived",
  applied: "Test put on",
  removed: "Test taken off",
  read: "Test looked at",
  reacted: "Something showed",
  confirmed: "Confirmed",
  route: "Way chosen",
  note: "Note",
  correction: "Correction",
};
const OUTCOMES: Readonly<Record<string, string>> = {
  clear: "clear",
  reaction: "a reaction",
  "not-sure": "not sure",
  pass: "nothing was told against it",
  "test-needed": "a new test is needed",
  "do-not-colour": "do not colour",
};
const ROUTES: Readonly<Record<string, string>> = {
  "in-salon": "at the salon",
  "home-kit": "home kit",
  "on-file": "earlier result on file",
};
const VIAS: Readonly<Record<string, string>> = {
  desk: "at the desk",
  "client-link": "by the client's own link",
  api: "by a program of the salon",
};
/** The United Kingdom's headings for a serious undesirable effect of a cosmetic, in the form's order. */
const HEADINGS: Readonly<Record<string, string>> = {
  productName: "Full name of the product",
  company: "Company",
  batchNumber: "Batch number",
  firstUse: "Date of first use",
  frequency: "Frequency of use",
  professionalUse: "Professional use",
  applicationSite: "Site of application",
  useStopped: "Whether use was stopped",
  firstSymptomAfterStart: "Time from start of use to first symptom",
  firstSymptomAfterLastUse: "Time from last use to first symptom",
  signs: "Signs and symptoms",
  diagnosis: "Diagnosis",
  bodyAreas: "Areas of the body",
  seriousness:
    "Criteria of seriousness (functional incapacity, disability, hospital, birth defect, danger to life, death), or none",
  doctorConfirmed: "Confirmed by a doctor or not",
};
/** What was decided about who she is, in the page's words. */
const DEEDS: Readonly<Record<string, string>> = {
  confirmed: "the bookings under this name are one person's",
  joined: "two clients are one person",
  split: "some bookings are another person's",
  apart: "two clients are two people",
  erasing: "to be erased",
};

/** Of a split, from the side of her to whom the bookings went. */
const TAKEN = "some bookings that stood under another client are hers";
/** Why not to colour, by the ground of a health question. */
const GROUNDS: Readonly<Record<string, string>> = {
  "under-16": "under 16",
  "past-reaction": "a past reaction",
  other: "another ground",
};

const ENTITIES: Readonly<Record<string, string>> = { lt: "<", gt: ">", quot: '"', "#39": "'", amp: "&" };
/** Text of a page, tags taken out and what was written for a sign read as the sign. */
const plain = (html: string): string =>
  html.replaceAll(/<[^>]*>/g, "").replaceAll(/&(lt|gt|quot|#39|amp);/g, (_, name: string) => ENTITIES[name] ?? "");

const cellsOf = (html: string, tag: string): readonly string[] =>
  [...html.matchAll(new RegExp(`<${tag}(?: [^>]*)?>([^]*?)</${tag}>`, "g"))].map(([, text]) =>
    plain(text ?? "").trim(),
  );

/** How much later it was told, where that is more than an hour: to the minute. */
const laterWords = (at: number, recorded: number): string => {
  const minuteOf = (seconds: number): number => Math.floor(seconds / 60);
  const late = minuteOf(recorded) - minuteOf(at);
  const counted = (count: number, one: string): readonly string[] =>
    count === 0 ? [] : [`${count} ${one}${count === 1 ? "" : "s"}`];
  return late > 60
    ? `${[...counted(Math.floor(late / 60), "hour"), ...counted(late % 60, "minute")].join(" ")} later, `
    : "";
};

/** @param moved in words, the start it was told for where that is another now */
const detailsOf = (record: LogRecord, aside: string | null, moved: string | null): string => {
  const say = (label: string, value: string | number | null | undefined): readonly string[] =>
    value === null || value === undefined ? [] : [`${label}: ${value}`];
  const { kind, outcome, route, product, shade, batch, site, reason, note, corrects, questions } = record;
  const details = [
    ...say("Result", outcome === null ? null : OUTCOMES[outcome]),
    ...say("Test", route === null ? null : ROUTES[route]),
    ...say("Product", product),
    ...say("Depth of shade", shade),
    ...say("Batch", batch),
    ...say("Site", site),
    ...say("Why", kind === "screened" ? (GROUNDS[reason ?? ""] ?? reason) : reason),
    ...say("Note", note),
    ...say("Sets aside", corrects),
    ...say("Questions", questions === null ? null : `version ${questions}`),
    ...(moved === null ? [] : [`For the appointment at ${moved}`]),
  ];
  return `${aside === null ? "" : `Set aside by ${aside}. `}${details.join(". ")}`.trim();
};

interface Shown {
  readonly page: string;
  /** Every record that the page has to show, in its order. */
  readonly shown: readonly LogRecord[];
  /** Those that tell of a reaction or describe one. */
  readonly reacted: readonly LogRecord[];
  readonly screenings: readonly LogScreening[];
  readonly consents: readonly LogConsent[];
  readonly deeds: readonly LogDeed[];
}

export const checkPage = (
  world: World,
  booking: LogBooking,
  holder: Holder,
  { page, shown, reacted, screenings, consents, deeds }: Shown,
): void => {
  const { calendar, log } = world;
  const fault = (text: string): void => world.fault(`page of ${booking.uid} (${holder.id}): ${text}`);
  const table = /<table class="records">([^]*?)<\/table>/.exec(page)?.[1] ?? "";
  const rows = [...table.matchAll(/<tr(?: class="aside")?><td><strong>([^]*?)<\/tr>/g)].map(([row]) =>
    cellsOf(row, "td"),
  );
  const got = rows.map(([name, when, says, rule, told]) =>
    JSON.stringify([name, when, says, /settings \d+$/.exec(rule ?? "")?.[0], told]),
  );
  const movedFrom = (record: LogRecord): string | null => {
    const known = log.bookings.get(record.booking ?? "");
    const present = known === undefined || known.gone ? null : known.start;
    return record.start === null || record.start === present ? null : calendar.words(record.start);
  };
  const wanted = shown.map((record) => {
    const { id, kind, at, recorded, by, via, settings } = record;
    const told = `${laterWords(at, recorded)}${calendar.words(recorded)}, ${by === null ? "" : `${by} `}${VIAS[via]}`;
    return JSON.stringify([
      `${KINDS[kind]} ${id}`,
      calendar.words(at),
      detailsOf(record, log.correctionOf(record), movedFrom(record)),
      `settings ${settings}`,
      told,
    ]);
  });
  for (let row = 0; row < Math.max(got.length, wanted.length); row++) {
    if (got[row] !== wanted[row]) fault(`row ${row} reads ${got[row]}, not ${wanted[row]}`);
  }
  world.count("rows read on pages", got.length);
  const part = /<h3>What showed<\/h3>([^]*?)<h3>/.exec(page)?.[1] ?? "";
  const headings = [
    ...part.matchAll(
      /<dl class="facts(?: aside)?"><div class="whole"><dt>Record<\/dt>([^]*?)<\/dl>(?:<p class="small">([^]*?)<\/p>)?|<p>(Record [^]*?)<\/p>/g,
    ),
  ].map(([, told, untold, bare]) =>
    bare === undefined
      ? JSON.stringify([cellsOf(told ?? "", "dt"), cellsOf(told ?? "", "dd"), plain(untold ?? "")])
      : plain(bare),
  );
  const described = reacted.map((record, place) => {
    const known = Object.entries(HEADINGS);
    const aside = log.correctionOf(record);
    const head = `${record.id}, ${calendar.words(record.at)}${aside === null ? "" : `, set aside by ${aside}`}`;
    const { reaction } = record;
    if (reaction === null) {
      const isSaid = (each: LogRecord): boolean =>
        each.booking === record.booking && each.reaction !== null && log.correctionOf(each) === null;
      const later = reacted.slice(place + 1).find(isSaid);
      return `Record ${head}: ${later ? `described under the headings with ${later.id}` : "not described yet under the headings"}`;
    }
    const told = known.filter(([heading]) => heading in reaction);
    const untold = known.filter(([heading]) => !(heading in reaction)).map(([, words]) => words);
    return JSON.stringify([
      told.map(([, words]) => words),
      [head, ...told.map(([heading]) => reaction[heading])],
      untold.length === 0 ? "" : `not told: ${untold.join("; ")}`,
    ]);
  });
  if (headings.join() !== described.join()) fault(`what showed reads ${headings.join()}, not ${described.join()}`);
  world.count("reactions read on pages", described.length);
  const answers = [...page.matchAll(/<h3>Answers of ([^]*?<\/h3>(?:<p>[^]*?<\/p>|<ul[^]*?<\/ul>))/g)].map(
    ([, text = ""]) => plain(text),
  );
  if (answers.length !== screenings.length) fault(`${answers.length} sets of answers, not ${screenings.length}`);
  for (const [place, { at, version, answers: given }] of screenings.entries()) {
    const text = answers[place] ?? "";
    const isThere = text.startsWith(`${calendar.words(at)}, version ${version} of the questions`);
    if (!isThere || text.includes("Not kept any more") !== (given === null))
      fault(`answers of ${calendar.words(at)} read ${text}`);
  }
  const who = /<h3>Consent, and who the client is<\/h3>((?:<p>[^]*?<\/p>)*)/.exec(page)?.[1] ?? "";
  const said = [
    ...consents.map(
      ({ at, given }) => `${calendar.words(at)}: consent to keeping health answers ${given ? "given" : "withdrawn"}`,
    ),
    ...deeds.map(({ at, kind, client, other, by, bookings, reason }) => {
      const isTaker = other === holder.id;
      const party = isTaker ? client : other;
      const listed = bookings.length === 0 ? "" : `: ${bookings.join(", ")}`;
      const words = `${kind === "split" && isTaker ? TAKEN : DEEDS[kind]}${party === null ? "" : ` (client ${party})`}${listed}`;
      return `${calendar.words(at)}: ${words}, by ${by}${reason === null ? "" : `, because: ${reason}`}`;
    }),
  ];
  if (JSON.stringify(cellsOf(who, "p")) !== JSON.stringify(said))
    fault(`who she is reads ${cellsOf(who, "p").join(" | ")}, not ${said.join(" | ")}`);
  if (!plain(page).includes(holder.face.name) || !plain(page).includes(calendar.words(booking.start)))
    fault("her name or the time is not there");
  if (/<script|<b>/.test(page.replace(/<head>[^]*<\/head>/, ""))) fault("what was told runs as HTML");
  nothingOfOthers(world, holder, plain(page), shown, deeds, fault);
};

/** Every word that stands in one record alone is of a record that belongs here. */
const nothingOfOthers = (
  world: World,
  { face }: Holder,
  text: string,
  shown: readonly LogRecord[],
  deeds: readonly LogDeed[],
  fault: (text: string) => void,
): void => {
  const hers = JSON.stringify([shown, deeds]);
  for (const [word] of text.matchAll(/\b(?:note|lot|kit|why)[0-9a-z]{5}q\b/g))
    if (!hers.includes(word)) fault(`${word} is nothing of hers`);
  for (const { faces } of world.women) {
    for (const { name, email } of faces) {
      if (name !== face.name && text.includes(name)) fault(`it names ${name}`);
      if (email !== null && text.includes(email)) fault(`it has the address ${email}`);
    }
  }
};
