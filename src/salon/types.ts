/** What one salon holds between two moments. Immutable: a change makes a new state, and the store writes what differs. */
import type { EntryAnswer } from "../diary/answers.ts";
import type { EventContent, EventStamps } from "../feed/types.ts";
import type { Answer, Fact, Outcome, Question, StepRule, TestAppointment, Why } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import type { NextNumbers } from "./inTurn.ts";

export interface Booking {
  /** Identity, given when first seen. */
  readonly uid: string;
  /** Key of the diary entry that carries it now. */
  readonly key: string;
  readonly diary: string;
  /** Whose it is. */
  readonly client: string;
  /** The client whose name and address the diary gives, before she was joined with another. */
  readonly under: string;
  readonly start: Instant;
  readonly end: Instant | null;
  readonly summary: string;
  readonly service: string;
  readonly firstSeen: Instant;
  readonly cancelledAt: Instant | null;
  /** When it last moved, and from which start; or came back after it was cancelled (`from` null). Null: neither. */
  readonly turned: { readonly at: Instant; readonly from: Instant | null } | null;
  /** Since when its entry cannot be understood any more; null: it can. */
  readonly unreadSince: Instant | null;
  /** When its plan may next differ; null: never, unless something is told. */
  readonly next: Instant | null;
  /** The highest stamps of events of its that are not kept any more; null: all are. */
  readonly said: { readonly sequence: number; readonly lastModified: Instant } | null;
}

export interface Client {
  /** `c` and the number. */
  readonly id: string;
  /** Stands in her link. */
  readonly number: number;
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
  /** Generation of her link; a lower one is revoked. */
  readonly generation: number;
  /** A person has said that all bookings under this bare name are one woman's; always true where an address agrees. */
  readonly confirmed: boolean;
  /** Whom she turned out to be, always a person of her own; null: she is one. */
  readonly joined: string | null;
  /** With whom she was joined, who may have been joined with others since: what a split undoes. Null: with nobody. */
  readonly via: string | null;
  /** What turned out to be hers and not another's. */
  readonly took: readonly Taken[];
  /** Of whom a person has said that they are somebody else. */
  readonly apart: readonly string[];
  /** From whom a split has parted her, or whom from her. Whether the two are to be told apart is asked where one has a stop. */
  readonly parted: readonly string[];
  /** When her erasure was asked for, with or without the evidence; it waits for an appointment ahead. Null: it does not. */
  readonly erasing: { readonly at: Instant; readonly evidence: boolean } | null;
  /** When all went that nothing obliges to keep; what is left is kept for legal claims. Null: she is a client. */
  readonly erased: Instant | null;
  /** When she was first known. */
  readonly since: Instant;
  /** When the next thing of hers has been kept as long as it may be; null: nothing has an end yet. */
  readonly forget: Instant | null;
}

/** What a split made another client's. */
export interface Taken {
  readonly at: Instant;
  readonly from: string;
  readonly bookings: readonly string[];
  readonly records: readonly string[];
  readonly screenings: readonly string[];
}

/** What stood around a record when it was told. Null: not known, or without meaning for its kind. */
export interface Circumstances {
  /** The salon's. */
  readonly zone: string | null;
  /** The version of the settings. */
  readonly settings: number | null;
  /** By which it was done, with its source. */
  readonly rule: StepRule | null;
  /** The version of the health questions that were answered. */
  readonly questions: number | null;
  /** What was read by who told it. */
  readonly words: string | null;
  /** When its appointment began, as the diary then had it; null too of records of before this was kept. */
  readonly start: Instant | null;
}

export const NO_CIRCUMSTANCES: Circumstances = {
  zone: null,
  settings: null,
  rule: null,
  questions: null,
  words: null,
  start: null,
};

/** A reaction under the headings of the United Kingdom's form for serious undesirable effects of cosmetics. */
export const REACTION_HEADINGS = [
  "productName",
  "company",
  "batchNumber",
  "firstUse",
  "frequency",
  "professionalUse",
  "applicationSite",
  "useStopped",
  "firstSymptomAfterStart",
  "firstSymptomAfterLastUse",
  "signs",
  "diagnosis",
  "bodyAreas",
  "seriousness",
  "doctorConfirmed",
] as const;
export type ReactionReport = Readonly<Record<(typeof REACTION_HEADINGS)[number], string | null>>;

/** A record as a salon keeps it. */
export interface Recorded extends Fact {
  readonly circumstances: Circumstances;
  /** Null where none is described. */
  readonly reaction: ReactionReport | null;
  /** Of its appointment alone: whoever it was told of is gone, and it is no record of whose the appointment is. */
  readonly isLeft?: boolean | undefined;
}

/** What was decided about who a client is, or asked by her. Appended. */
export interface ClientDeed {
  /** `d` and a number. */
  readonly id: string;
  readonly client: string;
  readonly kind:
    | "added"
    | "confirmed"
    | "joined"
    | "split"
    | "apart"
    | "request"
    | "answered"
    | "erasing"
    | "acknowledged";
  readonly at: Instant;
  readonly by: string | null;
  readonly via: Fact["via"];
  /** The other client of a join, a split or a parting; the request that was answered; the record that was read. */
  readonly other: string | null;
  /** Of a split. */
  readonly bookings: readonly string[];
  readonly reason: string | null;
  /** Of a request: what for, the local day it was received, and the last day for an answer. */
  readonly request: { readonly what: RequestKind; readonly received: number; readonly due: number } | null;
}

export const REQUEST_KINDS = ["access", "erasure", "correction"] as const;
export type RequestKind = (typeof REQUEST_KINDS)[number];

/** A skin test that stands in a diary. Whose it is, is asked anew whenever it matters: it makes nobody a client. */
export interface DiaryTest extends TestAppointment {
  /** Of its entry. */
  readonly key: string;
  readonly diary: string;
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
}

/** The health questions as they were shown under one version; never changed, since answers are read beside them. */
export interface QuestionsShown {
  readonly version: number;
  readonly from: Instant;
  readonly language: string;
  /** The statement that keeping the answers rests on, as it was shown. */
  readonly consent: string;
  readonly questions: readonly Question[];
}

/** One set of answers. Appended; a withdrawn consent empties `answers` and nothing else. */
export interface Screening {
  /** `s` and a number. */
  readonly id: string;
  readonly client: string;
  readonly booking: string;
  readonly at: Instant;
  /** Of the questions. */
  readonly version: number;
  /** By the question's id; null once the consent to keep them is withdrawn. */
  readonly answers: Readonly<Record<string, Answer>> | null;
  readonly withdrawn: Instant | null;
  /** Null: a person at the salon decides. */
  readonly outcome: Outcome | null;
  /** The number that the next record had: one of a higher number was told later, however fast. */
  readonly before: number;
  /** The records that came of it. */
  readonly records: readonly string[];
  readonly via: Fact["via"];
}

/** A client's statement that her health answers may be kept, or may not any more. Appended, never changed. */
export interface Consent {
  /** `k` and a number. */
  readonly id: string;
  readonly client: string;
  readonly given: boolean;
  readonly at: Instant;
  /** What she read where she agreed, or took it back; null: nothing of ours. */
  readonly words: string | null;
  readonly via: Fact["via"];
}

/** Whose feed an event stands in: "salon" or a client's id. */
export type Audience = string;

export interface StoredEvent {
  readonly audience: Audience;
  /** The booking it belongs to; null for a diary's notice. */
  readonly booking: string | null;
  readonly who: "salon" | "client";
  readonly service: string | null;
  readonly content: EventContent;
  readonly stamps: EventStamps;
  /** Since when it stands at its time: first said then, or moved there. */
  readonly timed: Instant;
  /** Past this it is left out of the feed; the row stays, so that its sequence never falls. */
  readonly expires: Instant;
  readonly shown: boolean;
}

/** A reading that waits until it is seen again or accepted; its text is stored apart. A failed fetch does not end it. */
export interface HeldReading {
  readonly since: Instant;
  /** Of the reading. */
  readonly number: number;
  readonly why: Why;
  /** What it would lose or move, in short marks: a later reading that would do more is held anew. */
  readonly marks: readonly string[];
  /** VEVENTs in its text, and where it says it comes from. */
  readonly raw: number;
  readonly calendarName: string | null;
  readonly producer: string | null;
}

/** The graver of what is wrong with a diary: `held` stands as long as a reading is held, whatever fails meanwhile. */
export interface DiaryTrouble {
  readonly since: Instant;
  readonly kind: "unreadable" | "held";
  readonly why: Why;
}

export interface SkippedEntry {
  readonly entry: string;
  readonly uid: string;
  readonly start: string;
  readonly reason: string;
  readonly text: string;
}

export interface UnsortedEntry {
  readonly entry: string;
  readonly uid: string;
  readonly start: string;
  readonly summary: string;
  readonly why: Why;
  readonly nearest: string | null;
}

/** A booking that vanished while several new ones could be it. Listed until it would have begun. */
export interface UnclearBooking {
  readonly booking: string;
  readonly start: string;
  readonly text: string;
  readonly candidates: readonly { readonly uid: string; readonly start: string }[];
}

export interface DiaryReport {
  readonly name: string;
  readonly at: Instant;
  readonly status: "read" | "unchanged" | "held" | "refused" | "never-read";
  readonly reason: Why | null;
  readonly counts: Readonly<Record<string, number>>;
  readonly skipped: readonly SkippedEntry[];
  readonly unsorted: readonly UnsortedEntry[];
  readonly unclear: readonly UnclearBooking[];
  /** A reading that waits to be seen again or accepted, whatever this report is of. */
  readonly held: Pick<HeldReading, "since" | "why"> | null;
}

export interface Diary {
  readonly name: string;
  /** When the salon began to keep it. */
  readonly added: Instant;
  /** Number of the last reading begun, and of the last applied. */
  readonly begun: number;
  readonly appliedReading: number;
  /** When it was last read well; null: never. */
  readonly lastGood: Instant | null;
  readonly report: DiaryReport | null;
  readonly trouble: DiaryTrouble | null;
  readonly held: HeldReading | null;
  /** What the last applied reading that said so called itself, and what wrote it. */
  readonly calendarName: string | null;
  readonly producer: string | null;
  /** Applied readings in a row in which most bookings ahead came under new UIDs. */
  readonly renewals: number;
  /** Since when a booking ahead keeps an old time because its entry can no longer be understood; null: none does. */
  readonly unreadSince: Instant | null;
  /** Validators of the upstream answer that is applied. */
  readonly etag: string | null;
  readonly lastModified: string | null;
  readonly nextPoll: Instant | null;
  /** Until when upstream asked to be left alone; null: it did not. */
  readonly restUntil: Instant | null;
  /** Pulls failed in a row. */
  readonly failures: number;
  /** The local day the horizon was last reckoned from. */
  readonly horizonDay: number | null;
}

export interface State {
  /** Every boundary up to here has been applied. */
  readonly settledTo: Instant;
  readonly nextClient: number;
  readonly nextFact: number;
  /** Numbers of what is appended besides. */
  readonly next: NextNumbers;
  readonly clients: ReadonlyMap<string, Client>;
  readonly bookings: ReadonlyMap<string, Booking>;
  /** By id, in the order they were told. */
  readonly facts: ReadonlyMap<string, Recorded>;
  readonly deeds: ReadonlyMap<string, ClientDeed>;
  /** By diary and key (`testKey`). */
  readonly tests: ReadonlyMap<string, DiaryTest>;
  /** By version, as text. */
  readonly questions: ReadonlyMap<string, QuestionsShown>;
  readonly screenings: ReadonlyMap<string, Screening>;
  readonly consents: ReadonlyMap<string, Consent>;
  /** By a hash of diary and UID. */
  readonly erased: ReadonlyMap<string, ErasedBlock>;
  /** What people have said of entries, by the entry's id. */
  readonly answers: ReadonlyMap<string, EntryAnswer>;
  /** By `eventKey`. */
  readonly events: ReadonlyMap<string, StoredEvent>;
  readonly diaries: ReadonlyMap<string, Diary>;
}

/** A block of a diary that is not read again, since it tells of somebody who was erased, or a booking of hers; until it is out of sight. */
export interface ErasedBlock {
  readonly until: Instant;
  /** Of a booking: the highest stamps of what was said of it, should its UID come again. */
  readonly said: Booking["said"];
}

export const testKey = (diary: string, key: string): string => `${diary}\n${key}`;
export const eventKey = (audience: Audience, uid: string): string => `${audience}\n${uid}`;
