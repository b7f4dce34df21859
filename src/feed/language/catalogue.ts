/**
 * The shape of a language file: every word that a feed or a client's page shows, but for the fixed ones of emergency.ts.
 * A text in {braces} is filled in; a translator may move it within the sentence, not rename it. A test holds every
 * language to the same set of names.
 *
 * {by} {from} {at} {moment} {start}  short times: Wed 10:30          {long…}  times with their date
 * {after} {rule}                lengths of time: 48 hours       {here}   "here", or whom to tell where there is no page
 */

import type { StepKind } from "../../plan/types.ts";

/** The steps as the words tell them apart: a test at home reads otherwise than one in the salon. */
export type StepName =
  | "screening"
  | "rescreening"
  | "shipping"
  | "arrival"
  | "applicationHome"
  | "applicationSalon"
  | "applicationBooked"
  | "removalHome"
  | "removalSalon"
  | "readingHome"
  | "readingSalon"
  | "result";

/** What stands in a SUMMARY. */
export interface SummaryWords {
  /** What to do and by when. */
  readonly todo: string;
  /** The same while it hangs on a test that nobody has recorded; null for steps that hang on nothing. */
  readonly hangs: string | null;
  /** The question once its time has passed and nothing is recorded. */
  readonly late: string;
}

export interface StepWords extends SummaryWords {
  /** How to do it, in short sentences. */
  readonly how: string;
}

export interface Catalogue {
  readonly time: {
    readonly weekdays: readonly [string, string, string, string, string, string, string];
    readonly months: readonly string[];
    /** Hours on the clock's face; 12 takes the two words of `halves`. */
    readonly clock: 12 | 24;
    readonly halves: readonly [string, string];
    /** {weekday} {time} */
    readonly short: string;
    /** {weekday} {day} {month} {year} {time} */
    readonly long: string;
    /** {weekday} {day} {month}: a day near at hand, without its year. */
    readonly date: string;
    /** {time}: of a repeated hour, the second pass. */
    readonly secondPass: string;
    readonly span: string;
    /** {from}, and {to} as a time of day: both ends on one day. */
    readonly spanInDay: string;
    readonly by: string;
    readonly hour: string;
    readonly hours: string;
    readonly minute: string;
    readonly minutes: string;
    readonly second: string;
    readonly seconds: string;
  };
  /** Who or what is meant where a name is missing. */
  readonly missing: { readonly client: string; readonly phone: string };
  readonly here: { readonly page: string; readonly none: string };
  readonly client: Readonly<Record<StepName, StepWords>>;
  readonly salon: Readonly<Record<StepName, StepWords>>;
  readonly colour: {
    readonly todo: string;
    readonly how: string;
    readonly stop: string;
    readonly stopHow: string;
    /** The same after something showed: the test comes off at once, and nobody has to say when. */
    readonly stopShownHow: string;
    readonly noTime: string;
    readonly noTimeHow: string;
    /** The test that is on does not suffice any more. */
    readonly newTest: string;
    readonly newTestHow: string;
    /** Instead of `noTimeHow`, where a test is on that does not count. */
    readonly noTimeOnHow: string;
    /** Nothing is recorded of a test and none fits any more: all hangs on her answer. */
    readonly asks: string;
    /** A stop, once the appointment has passed. */
    readonly stopAfter: string;
    readonly stopAfterHow: string;
  };
  /** Instead of a client's own SUMMARYs where her salon wants them discreet: no test, no kit, no colour and no salon. */
  readonly discreet: {
    readonly steps: Readonly<Record<StepName, SummaryWords>>;
    readonly colour: {
      readonly todo: string;
      readonly stop: string;
      readonly noTime: string;
      readonly newTest: string;
      readonly asks: string;
      readonly stopAfter: string;
    };
    readonly looking: string;
    readonly waitTest: string;
    readonly kitMayBeOn: string;
    readonly testIsOn: string;
    /** Of the calendar. */
    readonly name: string;
  };
  /** In the salon's feed, once every look is told and nobody has confirmed: {client} {at} */
  readonly toConfirm: string;
  /** Paragraphs of descriptions. */
  readonly says: {
    readonly when: string;
    /** {span} {start}: when it would be, had the test gone on at the planned time. */
    readonly whenIf: string;
    readonly appointment: string;
    readonly appointmentSalon: string;
    readonly wear: string;
    readonly wearUntilLook: string;
    readonly kit: string;
    readonly kitNote: string;
    readonly lookFor: string;
    readonly somethingShows: string;
    readonly instructionsWin: string;
    readonly notCertain: string;
    readonly kitMayBeOn: string;
    readonly kitMayBeOnSalon: string;
    /** A test is recorded that does not count, and is not off again: {phone} */
    readonly testIsOn: string;
    readonly testIsOnSalon: string;
    /** The diary's entry cannot be understood any more: {phone} */
    readonly unread: string;
    readonly unreadSalon: string;
    /** Instead of how to do it. */
    readonly doneHow: string;
    /** In a tombstone of a test's step. */
    readonly calledOff: string;
    /** Instead of how to put a test on, once its time has passed. */
    readonly lateTest: string;
    readonly reach: string;
    readonly page: string;
    readonly rule: string;
    readonly ruleOnly: string;
    readonly source: string;
    readonly done: string;
  };
  /** Names and descriptions of the calendars themselves. */
  readonly feed: {
    readonly clientName: string;
    readonly clientAbout: string;
    readonly salonName: string;
    readonly salonAbout: string;
    /** {from} {to} {count} */
    readonly leftOut: string;
    /** Before every description of a file that is imported once: {url} */
    readonly once: string;
    readonly onceNoPage: string;
  };
  /** What a client can tell by one press. */
  readonly report: {
    readonly heading: string;
    readonly arrived: string;
    readonly notCome: string;
    readonly pleasePost: string;
    readonly applied: string;
    readonly removed: string;
    readonly clear: string;
    readonly notSure: string;
    readonly somethingShows: string;
    readonly when: string;
    /** Opens the time. */
    readonly earlier: string;
    /** {told} {when}: what a press has just kept, and what was told last. */
    readonly saved: string;
    readonly last: string;
    /** {phone} */
    readonly mistake: string;
    readonly notSaved: {
      readonly heading: string;
      /** A time was given, and not of what. */
      readonly nothing: string;
      readonly gone: string;
      /** {now} */
      readonly time: string;
    };
  };
  /** How to reach the salon. */
  readonly reach: {
    /** {salon} */
    readonly heading: string;
    /** {phone} */
    readonly telephone: string;
    /** {email} */
    readonly email: string;
    readonly none: string;
  };
  /** Her times in a calendar of her own. */
  readonly calendar: {
    readonly heading: string;
    readonly add: string;
    readonly address: string;
    readonly surest: string;
    readonly ways: readonly { readonly name: string; readonly how: string }[];
    readonly once: string;
    readonly onceHow: string;
    readonly keep: string;
    readonly code: string;
    readonly codeHow: string;
  };
  readonly notices: {
    readonly noTime: string;
    readonly noTimeHow: string;
    /** After the plan's own words for why the test that is on does not count. */
    readonly noTimeOnHow: string;
    /** Something is not recorded whose time has passed. */
    readonly late: string;
    /** The same where it is one step: {summary} of that step */
    readonly lateOf: string;
    /** Before `lateHow`, where the plan does not say itself until when to record. */
    readonly lateOpen: string;
    readonly lateHow: string;
    /** Nothing of why: a feed lies open. */
    readonly stop: string;
    readonly stopHow: string;
    /** The same where it is told after the day of the colour. */
    readonly stopAfter: string;
    readonly stopAfterHow: string;
    readonly who: string;
    readonly whoHow: string;
    readonly newTest: string;
    readonly newTestHow: string;
    readonly unreadable: string;
    readonly unreadableHow: string;
    readonly held: string;
    readonly heldHow: string;
    readonly neverRead: string;
    readonly neverReadHow: string;
    /** Of an appointment that was read before. */
    readonly unread: string;
    readonly unreadHow: string;
  };
  /** The health questions: their page, and what a client's own page says of them. */
  readonly questions: {
    readonly title: string;
    readonly heading: string;
    /** What is pressed to come to the questions, and to come to them a second time. */
    readonly open: string;
    readonly openAgain: string;
    readonly answerAll: string;
    readonly answers: { readonly yes: string; readonly no: string; readonly notSure: string };
    readonly sources: string;
    readonly agreeHeading: string;
    /** The words of a link. */
    readonly privacy: string;
    readonly send: string;
    readonly back: string;
    /** {when} */
    readonly answered: string;
    readonly answeredAtSalon: string;
    readonly cameOf: {
      readonly pass: string;
      readonly testNeeded: string;
      readonly doNotColour: string;
      readonly personDecides: string;
    };
    readonly askedAgain: string;
    readonly changeHeading: string;
    readonly stopAgain: string;
    /** While a person has to decide. */
    readonly looking: string;
    readonly lookingDetail: string;
    readonly lookingState: string;
    /** In a calendar, which others may see: nothing of what was answered. */
    readonly lookingHow: string;
    /** The same in the salon's feed: {client} {by} */
    readonly toDecide: string;
    readonly toDecideLate: string;
    /** In her feed, of a test that is to wait for the salon's word: {by} {salon} */
    readonly waitTest: string;
    readonly waitTestHow: string;
    readonly toDecideHow: string;
    readonly none: string;
    readonly noneDetail: string;
    readonly afterHeading: string;
    readonly after: string;
    readonly afterWithdrawal: string;
    readonly instead: string;
    readonly faults: {
      readonly heading: string;
      /** {number} */
      readonly unanswered: string;
      readonly mark: string;
      readonly consent: string;
      readonly changed: string;
      readonly notAhead: string;
      readonly other: string;
    };
    /** Of the answers that are kept. */
    readonly kept: {
      readonly heading: string;
      readonly since: string;
      readonly none: string;
      readonly withdrawn: string;
      readonly withdraw: string;
      readonly deleted: string;
      readonly follows: string;
      readonly followed: string;
      readonly given: string;
      readonly never: string;
    };
  };
  /** The client's page. */
  readonly page: {
    /** {salon}: holds no client's name, since titles stand in histories. */
    readonly title: string;
    readonly none: string;
    readonly noneDetail: string;
    /** {at}: its start before it moved */
    readonly moved: string;
    readonly everyStep: string;
    /** Of appointments that are still far off. */
    readonly later: string;
    readonly laterDetail: string;
    readonly how: string;
    readonly cautions: string;
    /** The words of a link. */
    readonly privacy: string;
    readonly cancelled: string;
    readonly cancelledDetail: string;
    readonly past: string;
    readonly pastDetail: string;
    readonly ready: string;
    readonly readyDetail: string;
    readonly waiting: string;
    readonly waitingDetail: string;
    readonly reported: string;
    readonly nothingReported: string;
    readonly reportedSteps: Readonly<Record<StepName, string>>;
    readonly states: {
      readonly open: string;
      readonly now: string;
      readonly asked: string;
      readonly done: string;
      readonly off: string;
    };
  };
  /** Short words in the picture of a plan along its days; the list beside it says all. */
  readonly picture: {
    readonly steps: Readonly<Record<StepKind, string>>;
    /** {n}: where there are several looks. */
    readonly look: string;
    readonly colour: string;
    readonly now: string;
    /** {at}: by when, or from when on. */
    readonly by: string;
    readonly from: string;
    /** {day}: while it hangs on a test that nobody has recorded. */
    readonly about: string;
    /** The whole in one sentence: {done} {count} {at}, and {next} where something is still to do. */
    readonly label: string;
    readonly labelNext: string;
    readonly shut: { readonly salon: string; readonly post: string; readonly both: string };
    /** {day} {name}: a public holiday, or days off. */
    readonly shutDay: string;
  };
}
