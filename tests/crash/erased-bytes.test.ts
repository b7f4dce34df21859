/** What was erased is in no byte of the files on disk once they are written anew, as every `npm start` does. No outside source. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { compactStorage } from "../../src/local/compactStorage.ts";
import { OPERATOR, Service } from "./Service.ts";

const filesWith = (folder: string, word: string): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((file) => readFileSync(file).includes(word));

const SETTINGS = { name: "Quillfen", zone: "Europe/London", tests: [{ route: "in-salon", protocol: "salon-48h" }] };

test("after an erasure and a start, no file of the storage holds the name; what is not erased is still there", async () => {
  const service = await Service.prepare();
  const ask = async <Body>(method: string, path: string, key: string, json?: object): Promise<Body> => {
    const answer = await service.caller.ask(method, path, { key, ...(json ? { json } : {}) });
    if (answer.kind !== "answered") throw new Error(`${method} ${path} was not answered`);
    return JSON.parse(answer.body.toString()) as Body;
  };
  try {
    await service.start();
    const { key } = await ask<{ key: string }>("POST", "/api/salons", OPERATOR, SETTINGS);
    const { id } = await ask<{ id: string }>("POST", "/api/salon/clients", key, { name: "Zelda Fenwright" });
    await ask("POST", "/api/salon/clients", key, { name: "Wren Tallis-Moor" });
    await ask("POST", "/api/salon/records", key, { client: id, kind: "note", note: "unmistakable words" });
    expect(filesWith(service.storage, "Zelda Fenwright")).not.toEqual([]);
    await ask("DELETE", `/api/salon/clients/${id}?evidence=erase`, key);
    await service.kill();
    compactStorage(service.storage);
    expect(filesWith(service.storage, "Zelda Fenwright")).toEqual([]);
    expect(filesWith(service.storage, "unmistakable words")).toEqual([]);
    expect(filesWith(service.storage, "Wren Tallis-Moor")).not.toEqual([]);
    await service.start();
    const { clients } = await ask<{ clients: { name: string }[] }>("GET", "/api/salon/clients", key);
    expect(clients.map(({ name }) => name)).toEqual(["Wren Tallis-Moor"]);
  } finally {
    await service.end();
  }
});
