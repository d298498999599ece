/** Puts the service together and lets it listen; and takes it down again without losing a request. */
import { randomBytes } from "node:crypto";
import { existsSync } from "node:fs";
import { createServer } from "node:http";
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { networkInterfaces } from "node:os";
import { fileURLToPath } from "node:url";
import type { RequestHandler } from "express";
import { pino } from "pino";
import type { Logger } from "pino";
import { pinoHttp } from "pino-http";
import { createApp } from "./app.ts";
import type { Clock } from "./clock.ts";
import { roomOf } from "./http/answer-failure.ts";
import { children } from "./plans/children.ts";
import { Planner } from "./plans/planner.ts";
import type { Settings } from "./settings.ts";
import { openFile } from "./store/database.ts";
import type { OpenFile } from "./store/database.ts";
import { takeFile } from "./store/one-writer.ts";
import { WhatIfs } from "./what-if/what-ifs.ts";

export interface Service {
  readonly address: string;
  readonly store: OpenFile;
  readonly planner: Planner;
  readonly stop: () => Promise<void>;
}

export interface ServiceParts {
  readonly settings: Settings;
  readonly clock: Clock;
  readonly logger: Logger;
}

/** Throws `FileInUse` where another server has the file, and whatever opening it or the port throws. */
export async function startService({ settings, clock, logger }: ServiceParts): Promise<Service> {
  const giveBack = takeFile(settings.file);
  const store = openOr(settings.file, giveBack);
  const report = (id: string, message: string): void => logger.error({ id }, message);
  const planner = new Planner({ db: store.db, clock, children: children(), report });
  const whatIfs = new WhatIfs({ clock, children, report });
  await planner.recover();
  const page = fileURLToPath(new URL("../web/dist/", import.meta.url));
  const app = createApp({
    ...settings,
    store,
    planner,
    whatIfs,
    clock,
    log: requestLog(logger),
    report: (error, where) => {
      const id = randomBytes(4).toString("hex");
      logger.error({ id, where, err: error }, "our fault");
      return id;
    },
    ...(existsSync(page) ? { page } : {}),
  });
  const server = createServer({ requestTimeout: 30_000, headersTimeout: 10_000, keepAliveTimeout: 65_000 }, app);
  try {
    await listen(server, settings);
  } catch (error) {
    whatIfs.close();
    await planner.close();
    await store.close();
    giveBack();
    throw error;
  }
  const { port } = server.address() as AddressInfo;
  const stop = async (): Promise<void> => {
    // Streams end with their searches; whatever else was accepted is answered first.
    const closed = new Promise<void>((resolve) => server.close(() => resolve()));
    whatIfs.close();
    await planner.close();
    // A line that is answered now is kept open by its client: it is closed as soon as nothing is asked on it.
    const idle = setInterval(() => server.closeIdleConnections(), 50);
    const hurry = setTimeout(() => server.closeAllConnections(), 5_000);
    await closed;
    clearInterval(idle);
    clearTimeout(hurry);
    await store.close();
    giveBack();
  };
  return { address: `http://${nameOf(settings.host)}:${port}`, store, planner, stop };
}

/** As a tablet types it: every address of this machine is told by one that others reach. */
function nameOf(host: string): string {
  const addresses = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  const outside = addresses.find(({ internal, family }) => !internal && family === "IPv4")?.address ?? "127.0.0.1";
  const one = host === "0.0.0.0" || host === "::" ? outside : host;
  return one.includes(":") ? `[${one}]` : one;
}

function openOr(file: string, giveBack: () => void): OpenFile {
  try {
    return openFile(file);
  } catch (error) {
    giveBack();
    throw error;
  }
}

function listen(server: Server, { host, port }: Settings): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, () => resolve());
  });
}

/** Method, kind of path, status, milliseconds: no names, no addresses, no bodies. */
function requestLog(logger: Logger): RequestHandler {
  return pinoHttp({
    logger,
    serializers: {
      req: ({ method, url }: { method: string; url: string }) => ({
        method,
        room: roomOf(url),
      }),
      res: ({ statusCode }: { statusCode: number }) => ({ statusCode }),
      err: ({ type }: { type?: string }) => ({ type }),
    },
    customLogLevel: (_request: unknown, response: { statusCode: number }) =>
      response.statusCode >= 500 ? "error" : "debug",
  });
}

export function serviceLogger(level: string): Logger {
  return pino({ level, base: null, formatters: { level: (label) => ({ level: label }) } });
}
