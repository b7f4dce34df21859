/** The evidence of one appointment for whoever is signed in: to read, to print, to keep as a file. */
import { type Context, Hono } from "hono";
import type { FC } from "hono/jsx";
import type { Evidence } from "../../salon/evidence.ts";
import { fail, type Outcome } from "../../salon/fault.ts";
import { EvidencePage } from "../evidencePage.tsx";
import { EvidenceSheet } from "../evidenceSheet.tsx";
import { KEPT_PAGE_HEADERS, SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import type { DeskService, Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { sayFault } from "./sayFault.ts";

export const deskEvidenceRoutes = new Hono<DeskService>();

const evidenceAt = async (c: Context<DeskService>, ref: string): Promise<Outcome<Evidence>> => {
  const booking = await c.var.salon.bookingNamed(ref);
  return booking === null ? fail({ code: "no-such-appointment" }) : c.var.salon.evidence(booking);
};

deskEvidenceRoutes.get("/desk/evidence/:ref", async (c) => {
  const found = await evidenceAt(c, c.req.param("ref"));
  if (!found.ok) return sayFault(c, found.fault, "/desk/log");
  return c.html(<Shown signed={c.var.signed} evidence={found.value} />, 200, SCRIPT_PAGE_HEADERS);
});

deskEvidenceRoutes.get("/desk/evidence/:ref/file", async (c) => {
  const found = await evidenceAt(c, c.req.param("ref"));
  if (!found.ok) return sayFault(c, found.fault, "/desk/log");
  const headers = { ...KEPT_PAGE_HEADERS, "content-disposition": 'attachment; filename="skin-test-record.html"' };
  return c.html(<EvidencePage evidence={found.value} />, 200, headers);
});

const Shown: FC<{ signed: Signed; evidence: Evidence }> = ({ signed, evidence }) => (
  <DeskPage title="Skin test record" place={null} signed={signed}>
    <div class="unprinted">
      <div class="actions">
        <button type="button" class="first" data-print data-script hidden>
          Print
        </button>
        <a class="button" href={`${signed.here}/file`}>
          Save as a file
        </a>
        <a class="button" href={`/desk/clients/${evidence.client.id}`}>
          Everything about her
        </a>
      </div>
    </div>
    <EvidenceSheet evidence={evidence} />
  </DeskPage>
);
