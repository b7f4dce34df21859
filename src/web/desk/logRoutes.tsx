/** The evidence log at the desk, and its files. */
import { type Context, Hono } from "hono";
import { PAGE_MAX } from "../../bounds.ts";
import type { RecordChoice } from "../../salon/recordList.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { factJson } from "../planJson.ts";
import { recordsCsv } from "../recordsCsv.ts";
import type { DeskService } from "./desk.ts";
import { type LogChoice, LogPage } from "./logPage.tsx";

export const logRoutes = new Hono<DeskService>();

const ROWS = 50;

interface Asked {
  readonly shown: LogChoice;
  readonly choice: Pick<RecordChoice, "client" | "booking">;
}

/** What an address asks for. A client or an appointment that is not known has no records. */
const readAsked = async (c: Context<DeskService>): Promise<Asked> => {
  const { client: id, booking: ref } = c.req.query();
  const found = id === undefined ? null : await c.var.salon.clientAtDesk(id);
  const client = found?.ok ? found.value.shown.client : null;
  const uid = ref === undefined ? null : ((await c.var.salon.bookingNamed(ref)) ?? NOBODYS);
  const booking = found?.ok ? found.value.shown.bookings.find((each) => each.uid === uid) : undefined;
  return {
    shown: {
      client: client && { id: client.id, name: client.name },
      booking: ref === undefined || uid === NOBODYS ? null : { ref, start: booking?.start ?? null },
    },
    choice: { client: id === undefined ? null : (client?.id ?? NOBODYS), booking: uid },
  };
};

/** Stands for what is not known: no record has it. */
const NOBODYS = "-";

logRoutes.get("/desk/log", async (c) => {
  const { shown, choice } = await readAsked(c);
  const asked = c.req.query("after");
  const after = asked !== undefined && /^r\d{1,12}$/.test(asked) ? asked : null;
  const page = await c.var.salon.latestRecords({ ...choice, after, limit: ROWS });
  const props = { signed: c.var.signed, choice: shown, page, after };
  return c.html(<LogPage {...props} />, 200, SCRIPT_PAGE_HEADERS);
});

const KEPT_PRIVATE = { "cache-control": "private, no-store", "x-content-type-options": "nosniff" };

logRoutes.get("/desk/log.csv", async (c) => {
  const { choice } = await readAsked(c);
  const table = await recordsCsv(c.var.salon, { ...choice, after: null, limit: PAGE_MAX }, false, new URL(c.req.url));
  return new Response(table.body, { headers: { ...Object.fromEntries(table.headers), ...KEPT_PRIVATE } });
});

/** All of them, page after page, as one list. */
logRoutes.get("/desk/log.json", async (c) => {
  const { choice } = await readAsked(c);
  const encoder = new TextEncoder();
  let after: string | null = null;
  let isFirst = true;
  const body = new ReadableStream<Uint8Array>({
    start: (controller) => controller.enqueue(encoder.encode('{"records":[')),
    pull: async (controller) => {
      const { rows, next } = await c.var.salon.recordLog({ ...choice, after, limit: PAGE_MAX });
      const text = rows
        .map(({ record, correctedBy }) => JSON.stringify({ ...factJson(record), correctedBy }))
        .join(",\n");
      controller.enqueue(encoder.encode(`${isFirst || text === "" ? "" : ","}\n${text}`));
      [after, isFirst] = [next, isFirst && text === ""];
      if (next !== null) return;
      controller.enqueue(encoder.encode("\n]}\n"));
      controller.close();
    },
  });
  return new Response(body, {
    headers: {
      ...KEPT_PRIVATE,
      "content-type": "application/json; charset=utf-8",
      "content-disposition": 'attachment; filename="records.json"',
    },
  });
});
