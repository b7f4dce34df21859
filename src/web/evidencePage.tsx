/** The evidence of one appointment as a page of its own, to keep as a file, to print and to sign. */
import type { FC } from "hono/jsx";
import type { Evidence } from "../salon/evidence.ts";
import { EvidenceSheet } from "./evidenceSheet.tsx";
import { Page } from "./layout.tsx";

export const EvidencePage: FC<{ evidence: Evidence }> = ({ evidence }) => (
  <Page title="Skin test record" language="en-GB" isKept>
    <EvidenceSheet evidence={evidence} />
  </Page>
);
