/** The log of records as CSV: all of it, page after page, or the page that is asked for. */
import { PAGE_MAX } from "../bounds.ts";
import type { RecordChoice } from "../salon/recordList.ts";
import type { Salon } from "../salon/salon.ts";
import { logRow, LOG_COLUMNS } from "./logColumns.ts";
import { writeCsv } from "./writeCsv.ts";

/** @param isPage whether one page is wanted, of which a Link tells the next; else every record from `after` on */
export const recordsCsv = async (
  salon: DurableObjectStub<Salon>,
  choice: RecordChoice,
  isPage: boolean,
  address: URL,
): Promise<Response> => {
  const headers: Record<string, string> = {
    "content-type": "text/csv; charset=utf-8; header=present",
    "content-disposition": 'attachment; filename="records.csv"',
  };
  const pageOf = async (after: string | null, header: readonly string[] | null) => {
    const { rows, next } = await salon.recordLog({ ...choice, after, limit: isPage ? choice.limit : PAGE_MAX });
    return {
      text: writeCsv(
        header,
        rows.map(({ record, person, correctedBy }) => logRow(record, person ?? undefined, correctedBy)),
      ),
      next,
    };
  };
  const first = await pageOf(choice.after, LOG_COLUMNS);
  if (isPage || first.next === null) {
    if (first.next !== null) {
      address.searchParams.set("after", first.next);
      headers["link"] = `<${address.search}>; rel="next"`;
    }
    return new Response(first.text, { headers });
  }
  const encoder = new TextEncoder();
  let page = first;
  const body = new ReadableStream<Uint8Array>({
    start: (controller) => controller.enqueue(encoder.encode(page.text)),
    pull: async (controller) => {
      if (page.next === null) return controller.close();
      page = await pageOf(page.next, null);
      return controller.enqueue(encoder.encode(page.text));
    },
  });
  return new Response(body, { headers });
};
