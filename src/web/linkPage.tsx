/** What a person sees whose link opens nothing. Tells apart only a link that was once valid. */
import type { FC } from "hono/jsx";
import { emergencyWords } from "../feed/emergency.ts";
import { Page } from "./layout.tsx";

export const LinkPage: FC<{ isRevoked: boolean }> = ({ isRevoked }) => (
  <Page title="This link opens nothing" language="en-GB">
    <p class="emergency" role="note">
      {emergencyWords(null)}
    </p>
    <section class="card">
      <h2>{isRevoked ? "This link has been replaced" : "There is nothing at this link"}</h2>
      <p>
        {isRevoked ? "Ask the salon for your new link." : "Check that it is complete, or ask the salon for your link."}
      </p>
    </section>
  </Page>
);
