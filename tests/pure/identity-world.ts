/**
 * A small world of appointments that knows which is which: a salon with two diaries, people with bookings and series, and
 * what happens to them. It writes each diary as an export would, and never looks at how the product matches.
 */
import type { FoundBooking, Person } from "../../src/diary/types.ts";
import { DAY_SECONDS, formatInstant, HOUR, type Instant } from "../../src/time/instant.ts";

export const DIARIES = ["A", "B"] as const;
export type DiaryName = (typeof DIARIES)[number];

/** Something that happens to one person's appointments between two readings. */
export interface Happening {
  readonly who: number;
  readonly which: number;
  readonly kind:
    | "move"
    | "remake"
    | "chair"
    | "chair-and-move"
    | "shift"
    | "split"
    | "correct"
    | "delete"
    | "add"
    | "turn";
  readonly amount: number;
}

/** One appointment. `id` is who it truly is. */
interface Truth {
  readonly id: string;
  uid: string;
  /** The original start; null: a single entry. */
  original: Instant | null;
  start: Instant;
}

/** A single entry or a series: what is edited as one. */
interface Course {
  readonly person: number;
  readonly service: string;
  diary: DiaryName;
  readonly truths: Truth[];
}

/** What a diary shows, with the truth beside it. */
export interface Shown {
  readonly id: string;
  readonly person: number;
  readonly found: FoundBooking;
}

const SERVICES = ["Colour", "Lightening"];
const SHIFTS = [HOUR, -HOUR, DAY_SECONDS, -DAY_SECONDS, 2 * DAY_SECONDS];
const WEEK = 7 * DAY_SECONDS;
/** No two appointments of the world fall on one minute, unless they are one. */
const MINUTE_STEP = 60;

export class World {
  readonly #courses: Course[] = [];
  readonly #names: string[] = [];
  #uids = 0;
  #ids = 0;
  #minutes = 0;

  constructor(people: number, now: Instant) {
    for (let person = 0; person < people; person++) {
      this.#names.push(`Person ${person}`);
      this.#add(person, now, person);
      this.#add(person, now, person + 1);
    }
  }

  /** True appointments ahead, by who they are. */
  ahead(now: Instant): ReadonlyMap<string, { readonly person: number; readonly diary: DiaryName }> {
    return new Map(
      this.#courses.flatMap(({ truths, person, diary }) =>
        truths.filter(({ start }) => start > now).map(({ id }) => [id, { person, diary }] as const),
      ),
    );
  }

  /** How many single entries and series somebody has. */
  coursesOf(person: number): number {
    return this.#courses.filter((course) => course.person === person && course.truths.length > 0).length;
  }

  /** Everything is given a new UID, as some exports do at each reading. */
  renewUids(diary: DiaryName): void {
    for (const course of this.#courses) {
      if (course.diary === diary) this.#rename(course.truths);
    }
  }

  /** Entries are numbered by their place, so that one new entry gives all that follow another's number. */
  numberUids(diary: DiaryName, backwards: boolean): void {
    const courses = this.#courses.filter((course) => course.diary === diary && course.truths.length > 0);
    if (backwards) courses.reverse();
    for (const [place, { truths }] of courses.entries()) {
      for (const truth of truths) truth.uid = `${diary} row ${place}`;
    }
  }

  /** False where nothing could happen, since the world would not know what is right. */
  happen({ who, which, kind, amount }: Happening, now: Instant): boolean {
    const person = who % this.#names.length;
    const courses = this.#courses.filter((course) => course.person === person);
    if (kind === "add") {
      this.#add(person, now, amount);
      return true;
    }
    const course = courses[which % courses.length];
    const first = course?.truths[0];
    if (!course || !first) return false;
    const { truths } = course;
    // What is near the present may fall behind it by a shift, and what is behind stays as it was.
    const isAhead = truths.every(({ start }) => start > now + 4 * DAY_SECONDS);
    const isSingle = truths.length === 1;
    const shift = (SHIFTS[amount % SHIFTS.length] as number) + MINUTE_STEP * ++this.#minutes;
    const one = truths[amount % truths.length] as Truth;
    switch (kind) {
      case "correct":
        this.#names[person] = `${this.#names[person]?.split(",")[0]}, corrected ${++this.#ids}`;
        return true;
      case "move":
        if (one.start <= now + 4 * DAY_SECONDS) return false;
        one.start += shift;
        return true;
      case "delete":
        truths.splice(0);
        return true;
      case "chair":
        course.diary = course.diary === "A" ? "B" : "A";
        return true;
      case "chair-and-move":
        if (!isAhead) return false;
        course.diary = course.diary === "A" ? "B" : "A";
        for (const truth of truths) truth.start += shift;
        return true;
      case "remake":
        if (!isAhead || !isSingle) return false;
        one.start += shift;
        this.#rename(truths);
        return true;
      case "turn":
        if (!isSingle) return false;
        one.original = one.original === null ? one.start : null;
        return true;
      case "shift":
        if (!isAhead) return false;
        for (const truth of truths) {
          truth.start += shift;
          if (truth.original !== null) truth.original += shift;
        }
        return true;
      case "split": {
        const rest = truths.slice(Math.floor(truths.length / 2));
        if (!isAhead || rest.length < 2) return false;
        const by = amount % 2 === 0 ? 0 : shift;
        for (const truth of rest) {
          truth.start += by;
          truth.original = truth.start;
        }
        this.#rename(rest);
        return true;
      }
    }
  }

  show(diary: DiaryName, from: Instant): readonly Shown[] {
    return this.#courses
      .filter((course) => course.diary === diary)
      .flatMap(({ person, service, truths }) =>
        truths
          .filter(({ start }) => start >= from)
          .map(({ id, uid, original, start }) => {
            const recurrenceId = original === null ? null : formatInstant(original);
            const client: Person = {
              name: this.#names[person] as string,
              email: `p${person}@example.com`,
              phone: null,
            };
            const key = recurrenceId === null ? uid : `${uid}/${recurrenceId}`;
            const end = start + HOUR;
            return {
              id,
              person,
              found: { key, uid, recurrenceId, diary, start, end, summary: "Root tint", service, client },
            };
          }),
      );
  }

  #rename(truths: readonly Truth[]): void {
    const uid = `uid ${++this.#uids}`;
    for (const truth of truths) truth.uid = uid;
  }

  #add(person: number, now: Instant, amount: number): void {
    const many = amount % 3 === 0 ? 1 : (amount % 7) + 2;
    const start = now + (5 + (amount % 40)) * DAY_SECONDS + MINUTE_STEP * ++this.#minutes;
    const uid = `uid ${++this.#uids}`;
    this.#courses.push({
      person,
      service: SERVICES[amount % SERVICES.length] as string,
      diary: amount % 2 === 0 ? "A" : "B",
      truths: Array.from({ length: many }, (_, n) => ({
        id: `true ${++this.#ids}`,
        uid,
        original: many === 1 ? null : start + n * WEEK,
        start: start + n * WEEK,
      })),
    });
  }
}
