/** A shop with a day whose plan is in force, some minutes after the day's start; for tests of the page. */
import { expect } from "vitest";
import type { DayFile } from "../../api/contract/day.ts";
import type { SearchAnswer } from "../../api/contract/searching.ts";
import { shopDay, testService } from "./service.ts";
import type { TestService } from "./service.ts";

export interface PlannedShop {
  readonly service: TestService;
  readonly day: DayFile;
  /** The search whose plan is in force. */
  readonly search: SearchAnswer;
}

export interface PlannedDay {
  /** The service's clock. */
  readonly now: string;
  readonly day?: DayFile;
  readonly steps?: number;
}

export async function plannedShop({
  now,
  day = shopDay("small-morning"),
  steps = 6,
}: PlannedDay): Promise<PlannedShop> {
  const service = await testService({ now });
  expect((await service.ask("PUT", "/day", { body: day })).status).toBe(200);
  const started = await service.ask("POST", "/plans", { body: { seconds: 120, steps } });
  await service.finished(started.body.id);
  expect((await service.ask("POST", `/plans/${started.body.id}/accept`, { body: {} })).status).toBe(200);
  const search = (await service.ask("GET", `/plans/${started.body.id}`)).body as SearchAnswer;
  return { service, day, search };
}
