/** What is stored about whom, why, for how long and who sees it: one page for everybody. Says nothing of any one salon. */
import { Hono } from "hono";
import type { FC } from "hono/jsx";
import { REPEATS_KEPT_HOURS } from "../bounds.ts";
import { EmergencyNote } from "./emergencyNote.tsx";
import type { Service } from "./env.ts";
import { Page, PAGE_HEADERS } from "./layout.tsx";

interface Kind {
  readonly title: string;
  readonly what: string;
  readonly why: string;
  readonly long: string;
}

const UNLESS = "unless the salon has set another time";

const KINDS: readonly Kind[] = [
  {
    title: "Records of skin tests",
    what: "That the health questions were asked and what came of them; when a test was posted, put on, taken off and looked at; what was seen; any reaction; who confirmed the appointment; notes and corrections. With each: product, batch, place on the skin, who told it and when, the start of the appointment as it then was, the time zone, the rule it was done by, and the words that were shown.",
    why: "so that the salon can show that a test was done in time, and so that nobody is coloured after a reaction",
    long: `six years from the last event of the appointment it belongs to, or from the day it was told where that is later, ${UNLESS}; a reaction, an unclear look or a past reaction that was told stays as long as any record of that client`,
  },
  {
    title: "Answers to the health questions",
    what: "Each set of answers, beside the words that were asked.",
    why: "so that a person at the salon can decide; only with the client's own consent, given beside the answers",
    long: `two years from the last event of the appointment they were given for, ${UNLESS}; deleted when the consent is withdrawn`,
  },
  {
    title: "Consent",
    what: "That the answers may be kept, and that they may not any more, each with its day and its words.",
    why: "to show what the keeping of answers rested on",
    long: `six years, ${UNLESS}`,
  },
  {
    title: "Who a client is",
    what: "The name; the address and telephone, where the diary or the salon gives them; what a person at the salon has decided about who is who; what a client has asked about these data, and by when it must be answered.",
    why: "to know whose appointment it is, and so that no result counts for somebody else",
    long: `the name as long as anything else here; address and telephone two years from the last appointment, ${UNLESS}`,
  },
  {
    title: "A client's link",
    what: "When it was given to her, and when it was first opened.",
    why: "so that the salon can telephone somebody who does not know what to do",
    long: "until it is replaced, or she is erased",
  },
  {
    title: "The salon's diary",
    what: "The diary as it was sent: every kind of appointment and everything written in it, from thirty days back on, also where a new version waits to be looked at; and what was not understood of it.",
    why: "to find colour appointments and follow them when they move",
    long: "until an appointment is thirty days past; what lies more than four hundred days ahead is kept unread until its time",
  },
  {
    title: "Colour appointments, and skin tests that stand in the diary",
    what: "Their times, with the name, address and telephone given there.",
    why: "to count back from them",
    long: `with their records; without any, two years, ${UNLESS}`,
  },
  {
    title: "What a person at the salon has said of an entry",
    what: "What it is and whose, with its title.",
    why: "so that the same need not be asked again",
    long: `two years, ${UNLESS}; after that only words that help with others like it`,
  },
  {
    title: "The calendars that are published",
    what: "What each event says, and when it last changed.",
    why: "so that a phone gets what changed and no more",
    long: "an event leaves its calendar thirty days after its end, and is deleted when its appointment is over",
  },
  {
    title: "The salon's settings",
    what: "Every version of them; names of its staff and how to reach it among them.",
    why: "so that a record can name the rules it was made under",
    long: "as long as the salon is here",
  },
];

const PrivacyPage: FC = () => (
  <Page title="What is stored, and why" language="en-GB">
    <h1>Countback</h1>
    <EmergencyNote country={null} />
    <h2>What is stored, and why</h2>
    <p>
      The salon decides what happens to its clients' data. This service keeps them for the salon, each salon's apart
      from every other's, with a hosting company; they are given to nobody else and used for nothing else. No page loads
      anything from elsewhere, and none of a client's sets a cookie; the salon's own pages set some to keep a screen
      signed in, who works there, and when it last looked.
    </p>
    {KINDS.map(({ title, what, why, long }) => (
      <section class="card">
        <h3>{title}</h3>
        <p>{what}</p>
        <p>Why: {why}.</p>
        <p>How long: {long}.</p>
      </section>
    ))}
    <p class="small">
      Days are counted by the salon's clock. Nobody's date of birth is kept, only whether she was asked if she is under
      sixteen; where the time to claim begins only at eighteen, the salon must set a longer time. Copies that the
      hosting company makes for emergencies go within thirty days.
    </p>
    <h3>Who sees what</h3>
    <p>
      Whoever has a client's link sees that client's times and appointments, what has been done and reported of them and
      what can be, whether to telephone, and since when answers are kept. The link holds no name, and the salon can
      replace it at any time. The salon's own calendar shows initials unless the salon chose names, and no result. No
      address that is given out holds a name; answers, notes and results stand in none, nor in the service's log or in a
      message of failure. Pictures are not stored: a record may say where the salon keeps one.
    </p>
    <h3>What you can ask for</h3>
    <p>
      Ask the salon. It can give you a copy of everything it keeps of you, put right what is wrong (a correction stands
      beside what it corrects), and erase you. It must answer within a month. If you think that your data are handled
      wrongly you can complain to the authority of your country; in the United Kingdom that is the Information
      Commissioner's Office.
    </p>
    <p>
      When you are erased, your address, telephone, answers and links go. If your name still stands in the salon's diary
      for a day ahead, they go when it is taken out there, or when that day has passed. Records of tests stay under your
      name to the end of their time, because a legal claim may still come, with your statements on keeping answers and
      what was decided about who you are, and go then by themselves; the salon can erase these too. Where a record about
      somebody else names you, your name is struck out there.
    </p>
    <p>
      You can take back your consent to keep health answers on your own page at any time: the answers are then deleted.
      That you were asked, when, and what came of it stays with the records, and so does anything that speaks against
      colouring; the salon may have to ask you again.
    </p>
    <p class="small">
      A request that a program sends again within {REPEATS_KEPT_HOURS} hours under the same key is answered as the first
      time; for that long its outcome is kept, without anybody's words. Of diary entries of somebody who was erased a
      mark is kept until they are thirty days past, so that they are not taken in again; it says nothing of the person.
    </p>
  </Page>
);

export const privacyRoute = new Hono<Service>();

privacyRoute.get("/privacy", (c) => c.html(<PrivacyPage />, 200, PAGE_HEADERS));
