/** What is stored about whom, why, for how long and who sees it: one page for everybody. Says nothing of any one salon. */
import { Hono } from "hono";
import type { FC } from "hono/jsx";
import { REPEATS_KEPT_HOURS } from "../bounds.ts";
import { emergencyWords } from "../feed/emergency.ts";
import type { Service } from "./env.ts";
import { Page, PAGE_HEADERS } from "./layout.tsx";

/** What, why, and how long. */
const KINDS: readonly (readonly [string, string, string])[] = [
  [
    "Records of skin tests: that the questions were asked and what came of them, when a test was posted, put on, taken off and looked at, what was seen, any reaction, who confirmed the appointment, notes and corrections, with product, batch, site, who told it, when, in which time zone, under which rule and which words",
    "so that the salon can prove that a test was done in time, and so that nobody is coloured after a reaction",
    "as evidence: six years from the last event of the case, unless the salon has set another time; what stops a colour, as long as anything of that client",
  ],
  [
    "The answers to the health questions, beside the words that were asked",
    "so that a person at the salon can decide; only with the client's own consent, given beside the answers",
    "as the rest: two years from the last event of the case, unless the salon has set another time; at once when the consent is withdrawn",
  ],
  [
    "The consent to keep health answers, and its withdrawal, each with its day and its words",
    "to prove on what the keeping of answers rested",
    "as evidence",
  ],
  [
    "A client's name; her address and telephone where the diary or the salon gives them",
    "to know whose appointment it is, and to tell people of one name apart",
    "the name as long as anything else of hers; address and telephone as the rest, from her last appointment",
  ],
  [
    "The salon's diary: appointments from thirty days back to four hundred days ahead, with what stands in them",
    "to find colour appointments and follow them when they move",
    "appointments until they are thirty days past; colour appointments without any record as the rest",
  ],
  [
    "What a person at the salon has said of an entry, and of who a client is",
    "so that it need not be asked again, and so that a result is credited to nobody else without a person's word",
    "as the rest; what was decided about a client, as long as anything of hers",
  ],
  [
    "The calendars that are published",
    "so that a phone gets what changed and no more",
    "an event until thirty days after its end",
  ],
  [
    "The salon's settings, every version of them",
    "so that a record can name the rules it was made under",
    "as long as the salon is here",
  ],
];

const PrivacyPage: FC = () => (
  <Page title="What is stored, and why" language="en-GB">
    <h1>Countback</h1>
    <p class="emergency" role="note">
      {emergencyWords(null)}
    </p>
    <h2>What is stored, and why</h2>
    <p>
      The salon decides what happens to its clients' data; this service keeps it for the salon, each salon's apart from
      every other's. It is given to nobody else, it is not used for anything else, and no page loads anything from
      elsewhere or sets a cookie.
    </p>
    {KINDS.map(([what, why, long]) => (
      <section class="card">
        <p>
          <strong>{what}.</strong>
        </p>
        <p>Why: {why}.</p>
        <p>How long: {long}.</p>
      </section>
    ))}
    <h3>Who sees what</h3>
    <p>
      Whoever has a client's link sees her times, her appointments and what she can report; the link holds no name and
      can be replaced by the salon at any time. The salon's own calendar shows initials unless the salon chose names,
      and no result. Nothing of a client stands in an address, in the service's log or in a message of failure. Pictures
      are not stored: a record may say where the salon keeps one.
    </p>
    <h3>What you can ask for</h3>
    <p>
      Ask the salon. It can give you a copy of everything it keeps of you, put right what is wrong (a correction stands
      beside what it corrects), and erase you. It must answer within a month. When you are erased, your address,
      telephone, answers and links go at once; records of tests stay under your name to the end of their time where a
      legal claim may still come, and go then by themselves. While your name still stands in the salon's diary ahead,
      the rest waits for that.
    </p>
    <p>
      Your consent to keep health answers can be taken back on your own page at any time: the answers are then deleted.
      That you were asked, when, and what came of it stays with the records; the salon may have to ask you again.
    </p>
    <p class="small">
      A request that is sent again within {REPEATS_KEPT_HOURS} hours under the same key is answered as the first time;
      for that long its outcome is kept, without anybody's words. What ends is decided by the calendar of the salon's
      own zone.
    </p>
  </Page>
);

export const privacyRoute = new Hono<Service>();

privacyRoute.get("/privacy", (c) => c.html(<PrivacyPage />, 200, PAGE_HEADERS));
