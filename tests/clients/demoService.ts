/** The real service with its demo salon as a calendar's tests need it: addresses, and what happens there meanwhile. */
import { dropFolder, newFolder, type Started, startService } from "../browser/localService.ts";

export interface DemoService {
  readonly origin: string;
  readonly salonFeed: string;
  readonly clientFeed: string;
  /** The client's screening is recorded, so that both feeds change. */
  readonly screenClient: () => Promise<void>;
  /** The client gets a new link; the old one is revoked. */
  readonly renewLink: () => Promise<void>;
  readonly end: () => Promise<void>;
}

interface PlanSeen {
  readonly booking: { readonly uid: string; readonly client: { readonly id: string; readonly name: string } };
}

/** The demo's client who has all of her steps before her. */
const CLIENT = "Mara Quillfeather";

export const startDemo = async (port: number): Promise<DemoService> => {
  const folder = newFolder();
  const service: Started = await startService(port, folder);
  const origin = service.address("Countback is at");
  const key = /salon key\s+(\S+)/.exec(service.printed())?.[1] ?? "";
  const ask = async <Answer>(method: string, path: string, body?: unknown): Promise<Answer> => {
    const answer = await fetch(`${origin}${path}`, {
      method,
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json" },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path} answered ${answer.status}: ${await answer.text()}`);
    return (await answer.json()) as Answer;
  };
  const { plans } = await ask<{ plans: readonly PlanSeen[] }>("GET", "/api/salon/plans");
  const { uid, client } = plans.find(({ booking }) => booking.client.name === CLIENT)?.booking ?? {};
  return {
    origin,
    salonFeed: service.address("salon feed"),
    clientFeed: new RegExp(`${CLIENT}.*?feed\\s+(http\\S+)`, "s").exec(service.printed())?.[1] ?? "",
    screenClient: async () => {
      const record = { client: client?.id, booking: uid, kind: "screened", outcome: "pass", by: "Ines", via: "desk" };
      await ask("POST", "/api/salon/records", { ...record, at: `${new Date().toISOString().slice(0, 19)}Z` });
    },
    renewLink: async () => {
      await ask("POST", `/api/salon/clients/${client?.id}/link`, { renew: true });
    },
    end: async () => {
      await service.interrupt();
      dropFolder(folder);
    },
  };
};
