/** The pictures of plans, read back from their text: where a mark stands is when it is. */
import { describe, expect, test } from "vitest";
import type { ChainMark, ChainShown } from "../../src/web/chain.ts";
import { chainOf } from "../../src/web/chain.ts";
import { lanesOf } from "../../src/web/chainAxis.ts";
import { ChainPicture } from "../../src/web/chainPicture.tsx";
import { ChainRow, RowScale } from "../../src/web/chainRow.tsx";
import { ChainSymbols } from "../../src/web/chainSymbols.tsx";
import type { Shade } from "../../src/plan/shades.ts";
import { DAY_SECONDS, HOUR, type Instant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import { at, COLOUR, contextOf, homeSteps, planOf, salonSteps, setDone } from "./feed-plans.ts";

const zone = Zone.named("Europe/London") as Zone;
const context = contextOf();
/** Drawn parts know their own text. */
const textOf = (drawn: { readonly toString: () => string }): string => drawn.toString();
const draw = (shown: ChainShown): string => textOf(<ChainPicture shown={shown} zone={zone} language="en-GB" />);
const homePlan = planOf("on-track", setDone(homeSteps(), "screening"), { asOf: at("2026-11-27T10:00:00Z") });

const attribute = (tag: string, name: string): string => new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1] ?? "";
const tagsOf = (svg: string, name: string): readonly string[] => svg.match(new RegExp(`<${name}\\s[^>]*>`, "g")) ?? [];
const percent = (text: string): number => Number(/^([\d.]+)%$/.exec(text)?.[1] ?? Number.NaN);
const midnights = (svg: string): readonly number[] =>
  tagsOf(svg, "line")
    .filter((tag) => tag.includes('class="midnight"'))
    .map((tag) => percent(attribute(tag, "x1")));
/** Of every shape its symbol and its place, in the order drawn. */
const shapes = (svg: string): readonly { readonly id: string; readonly x: number; readonly y: number }[] =>
  tagsOf(svg, "use").map((tag) => ({
    id: attribute(tag, "href").slice(1),
    x: percent(attribute(tag, "x")),
    y: Number(attribute(tag, "y")),
  }));

/** An axis as a reader takes it from the drawn midnights, given when the first two of them are. */
const readAxis = (svg: string, first: Instant, second: Instant): ((x: number) => Instant) => {
  const [from, next] = midnights(svg) as [number, number];
  return (x) => first + ((x - from) / (next - from)) * (second - first);
};

describe("a picture of a plan", () => {
  const svg = draw(chainOf(homePlan, [], context));
  // Thursday 26 November, the day of the first due, to the end of Friday 11 December.
  const when = readAxis(svg, at("2026-11-26T00:00:00Z"), at("2026-11-27T00:00:00Z"));

  test("has each mark where its instant is: by when it is to be done, removal and looks from when on", () => {
    expect(shapes(svg).map(({ id, x }) => [id, Math.round(when(x) / 60) * 60])).toEqual([
      ["m-screening-done", at("2026-11-26T16:30:00Z")],
      ["m-shipping-now", at("2026-11-27T16:30:00Z")],
      ["m-arrival-open", at("2026-12-05T18:00:00Z")],
      ["m-application-open", at("2026-12-06T10:30:00Z")],
      ["m-removal-open", at("2026-12-08T10:30:00Z")],
      ["m-reading-open", at("2026-12-08T11:00:00Z")],
      ["m-reading-open", at("2026-12-10T10:30:00Z")],
      ["m-result-open", at("2026-12-10T17:30:00Z")],
      ["m-colour", at("2026-12-11T10:30:00Z")],
    ]);
  });

  test("draws from when to when, and what opened before the picture begins from its edge", () => {
    const spans = tagsOf(svg, "line").filter((tag) => tag.includes('class="span"'));
    const [screening, shipping] = spans.map((tag) => [
      percent(attribute(tag, "x1")),
      when(percent(attribute(tag, "x2"))),
    ]);
    expect(screening?.[0]).toBe(0);
    expect(Math.abs((shipping?.[1] ?? 0) - at("2026-11-27T16:30:00Z"))).toBeLessThan(30);
    expect(Math.abs(when(shipping?.[0] ?? 0) - at("2026-11-27T09:00:00Z"))).toBeLessThan(30);
  });

  test("has now where it is, and where that is far away says so at the edge", () => {
    const [line] = tagsOf(svg.slice(svg.indexOf('class="now-mark"')), "line");
    expect(Math.abs(when(percent(attribute(line ?? "", "x1"))) - homePlan.asOf)).toBeLessThan(30);
    const early = draw(chainOf(planOf("on-track", homeSteps(), { asOf: at("2026-10-01T08:00:00Z") }), [], context));
    expect(early).toContain("← Now Thu 1 Oct");
    expect(midnights(early)).toHaveLength(16);
  });

  test("gives each step a lane of its own, at whatever time it is", () => {
    const ys = shapes(draw(chainOf(planOf("due", salonSteps()), [], context))).map(({ y }) => y);
    expect(new Set(ys).size).toBe(ys.length);
  });

  test("has days of 23 and 25 hours as wide as they are", () => {
    const step = (kind: ChainMark["kind"], due: string): ChainMark => ({
      kind,
      n: null,
      opens: at(due),
      due: at(due),
      state: "open",
      hangs: false,
      words: "",
    });
    // The clocks go back on Sunday 25 October 2026 at 01:00 UTC, and forward on Sunday 28 March 2027 at 01:00.
    const back = draw({
      marks: [step("application", "2026-10-24T11:00:00Z")],
      colour: at("2026-10-27T11:00:00Z"),
      now: at("2026-10-24T08:00:00Z"),
      shades: [],
    });
    const [sat, sun, mon, tue] = midnights(back) as [number, number, number, number];
    expect((mon - sun) / (tue - mon)).toBeCloseTo(25 / 24, 3);
    expect((sun - sat) / (tue - mon)).toBeCloseTo(1, 3);
    const whenBack = readAxis(back, at("2026-10-23T23:00:00Z"), at("2026-10-24T23:00:00Z"));
    expect(shapes(back).map(({ x }) => Math.round(whenBack(x) / 60) * 60)).toEqual([
      at("2026-10-24T11:00:00Z"),
      at("2026-10-27T11:00:00Z"),
    ]);
    const forward = draw({
      marks: [step("application", "2027-03-27T11:00:00Z")],
      colour: at("2027-03-29T11:00:00Z"),
      now: at("2027-03-27T08:00:00Z"),
      shades: [],
    });
    const [saturday, sunday, monday] = midnights(forward) as [number, number, number];
    expect((monday - sunday) / (sunday - saturday)).toBeCloseTo(23 / 24, 3);
  });

  test("hatches shut days, tells salon and post apart and says which is which only where it occurs", () => {
    const shade = (day: string, salon: boolean, post: boolean, name: string | null): Shade => {
      const number = at(`${day}T00:00:00Z`) / DAY_SECONDS;
      return { day: number, from: number * DAY_SECONDS, to: (number + 1) * DAY_SECONDS, salon, post, name };
    };
    const hostile = `<script>alert("1")</script>`;
    const shown = { ...chainOf(homePlan, [shade("2026-11-30", true, false, hostile)], context) };
    const one = draw(shown);
    const [rect] = tagsOf(one, "rect");
    expect([attribute(rect ?? "", "fill"), Math.round(when(percent(attribute(rect ?? "", "x"))))]).toEqual([
      "url(#shut-salon)",
      at("2026-11-30T00:00:00Z"),
    ]);
    expect(one).toContain("the salon is shut");
    expect(one).not.toContain("no post");
    expect(one).not.toContain("<script");
    expect(one).toContain("Mon 30 Nov: &lt;script&gt;");
    const both = draw({
      ...shown,
      shades: [shade("2026-11-29", true, true, null), shade("2026-11-30", true, true, null)],
    });
    const rects = tagsOf(both, "rect").filter((tag) => tag.includes('class="shut"'));
    expect(rects.map((tag) => attribute(tag, "fill"))).toEqual(["url(#shut-salon)", "url(#shut-post)"]);
    expect(both).toContain("the salon is shut, no post");
    expect(svg).not.toContain("figcaption");
  });

  test("is one image with one sentence, holds no style, and says no clock time that hangs on a test nobody recorded", () => {
    expect(tagsOf(svg, "svg").map((tag) => [attribute(tag, "role"), attribute(tag, "aria-label")])).toEqual([
      ["img", "Every step along its days: 1 of 8 done, next Kit posted by Fri 16:30, colour on Fri 11 Dec 2026, 10:30"],
    ]);
    expect(svg).not.toMatch(/\sstyle=/);
    expect(svg).toContain("Test off about Tue 8 Dec");
    expect(draw(chainOf(planOf("due", homeSteps(true)), [], context))).toContain("Test off from Tue 10:30");
  });

  test("draws every state by a symbol that the page holds", () => {
    const symbols = textOf(<ChainSymbols />);
    const asked = draw(chainOf(planOf("late", homeSteps(), { asOf: COLOUR - 5 * HOUR }), [], context));
    for (const { id } of [...shapes(svg), ...shapes(asked)]) expect(symbols).toContain(`id="${id}"`);
    expect(asked).toContain("m-application-asked");
  });
});

describe("a row of a table", () => {
  const [from, to] = [at("2026-11-23T00:00:00Z"), at("2026-12-21T00:00:00Z")];
  const row = textOf(<ChainRow shown={chainOf(homePlan, [], context)} from={from} to={to} label={`"><b>`} />);

  test("has each mark within five minutes of its instant, and at most 900 bytes", () => {
    const found = shapes(row).filter(({ id }) => id.startsWith("m-"));
    const wanted = ["2026-11-26T16:30:00Z", "2026-11-27T16:30:00Z", "2026-12-05T18:00:00Z", "2026-12-06T10:30:00Z"];
    for (const [index, text] of wanted.entries()) {
      expect(Math.abs(from + ((found[index]?.x ?? 0) / 100) * (to - from) - at(text))).toBeLessThan(300);
    }
    expect(found).toHaveLength(9);
    expect(row.length).toBeLessThan(900);
  });

  test("hides no mark behind another, escapes what it is called, and does not change with now", () => {
    const found = shapes(row).filter(({ id }) => id.startsWith("m-"));
    for (const [index, one] of found.entries()) {
      for (const other of found.slice(index + 1)) {
        expect(one.y !== other.y || Math.abs(one.x - other.x) >= 3.3).toBe(true);
      }
    }
    expect(row).toContain('aria-label="&quot;&gt;&lt;b&gt;"');
    const later = chainOf({ ...homePlan, asOf: homePlan.asOf + HOUR }, [], context);
    expect(textOf(<ChainRow shown={later} from={from} to={to} label={`"><b>`} />)).toBe(row);
  });

  test("leaves out what lies outside, and shares days and now with the others", () => {
    const late = textOf(<ChainRow shown={chainOf(homePlan, [], context)} from={COLOUR - 23 * HOUR} to={to} />);
    expect(shapes(late).map(({ id }) => id)).toEqual(["row-scale", "m-result-open", "m-colour"]);
    const scale = textOf(<RowScale from={from} to={to} now={homePlan.asOf} shades={[]} zone={zone} />);
    expect(midnights(scale)).toHaveLength(28);
    const [line] = tagsOf(scale, "line").filter((tag) => tag.includes("now-line"));
    const now = from + (percent(attribute(line ?? "", "x1")) / 100) * (to - from);
    expect(Math.abs(now - homePlan.asOf)).toBeLessThan(300);
  });

  test("uses another lane for what is near, and never more than there are", () => {
    expect(lanesOf([10, 11, 12, 20, 20.5], 3, 4)).toEqual([0, 1, 2, 0, 1]);
    expect(lanesOf([50, 49, 51, 50, 50], 3, 3)).toEqual([1, 0, 0, 2, 0]);
  });
});
