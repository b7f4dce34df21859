/** What goes into the reckoning and what comes out: the JSON forms of the outward contract. Types only. */
import type { RecordKind, RouteName, Standing, StepKind, StepState, TestRoute } from "../../src/plan/types.ts";

export interface ReckonProtocol {
  readonly lead: { readonly least: string; readonly most?: string | null; readonly from?: "application" | "removal" };
  readonly wear?: string | null;
  readonly removeWithin?: string;
  readonly readings: readonly { readonly after: string; readonly within?: string }[];
}

export interface ReckonOnFile {
  readonly months?: number | null;
  readonly product?: "same" | "any";
  readonly shade?: "not-darker" | "any";
}

export interface ReckonTest {
  readonly route: TestRoute;
  readonly protocol: string | readonly string[];
  readonly onFile?: ReckonOnFile | null;
  readonly screening?: { readonly margin?: string; readonly opens?: string };
}

export type WeekdayKey = "mon" | "tue" | "wed" | "thu" | "fri" | "sat" | "sun";
export type ReckonOpening = { readonly [key in WeekdayKey | "holiday"]?: readonly string[] };

/** Only what the counting rules read of POST /api/salons; a field that is absent has its default. */
export interface ReckonSettings {
  readonly name: string;
  readonly zone: string;
  readonly tests: readonly ReckonTest[];
  readonly protocols?: { readonly [name: string]: ReckonProtocol };
  readonly services?: readonly {
    readonly name: string;
    readonly words: readonly string[];
    readonly product?: string | null;
    readonly shade?: number | null;
  }[];
  readonly opening?: ReckonOpening | null;
  readonly lastWalkIn?: string;
  readonly closed?: readonly string[];
  readonly holidays?: { readonly add?: readonly string[] } | null;
  readonly clientHours?: string;
  readonly post?: {
    readonly collection?: readonly WeekdayKey[];
    readonly lastCollection?: string;
    readonly delivery?: readonly WeekdayKey[];
    readonly deliveredBy?: string;
    readonly transit?: number;
    readonly count?: "delivery" | "calendar";
    readonly closed?: readonly string[];
    readonly holidays?: boolean;
  };
}

export interface ReckonRecord {
  readonly id?: string;
  /** Absent: this booking. */
  readonly booking?: string;
  readonly kind: RecordKind;
  readonly at: string;
  readonly outcome?: "clear" | "reaction" | "not-sure" | "pass" | "test-needed" | "do-not-colour";
  readonly route?: RouteName;
  readonly via?: "desk" | "client-link" | "api";
  readonly product?: string;
  readonly shade?: number;
  readonly reason?: string;
  readonly corrects?: string | null;
}

export interface ReckonInput {
  readonly booking: { readonly uid: string; readonly start: string };
  readonly settings: ReckonSettings;
  readonly records: readonly ReckonRecord[];
  readonly now: string;
  /** Local dates, `2026-12-25`, that close the post and the salon. */
  readonly holidays?: readonly string[];
}

export interface ReckonStep {
  readonly kind: StepKind;
  readonly n: number | null;
  readonly opens: string;
  readonly due: string;
  readonly state: StepState;
}

export interface ReckonRoute {
  readonly route: RouteName;
  readonly fits: boolean;
  readonly until: string | null;
  readonly firstDue: string | null;
  readonly earliest: string | null;
}

export interface Reckoned {
  readonly route: RouteName | null;
  readonly standing: Standing;
  readonly steps: readonly ReckonStep[];
  readonly routes: readonly ReckonRoute[];
  readonly earliest: { readonly start: string; readonly route: RouteName } | null;
  /** Rule 23: the code that `why` carries once B has passed; null before. */
  readonly pastCode: "stop" | "ready" | "not-ready" | null;
}
