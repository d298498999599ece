/** A shop with a day whose plan is in force, some minutes after the day's start. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanFile } from "../../api/contract/plan.ts";
import { shopDay, testService } from "./service.ts";
import type { TestService } from "./service.ts";

export interface PlannedShop {
  readonly service: TestService;
  readonly day: DayFile;
  /** Of the search whose plan is in force. */
  readonly id: string;
  readonly plan: PlanFile;
}

/** A few minutes after the day begins. */
export const morning = "2026-06-09T07:05:00Z";

/** The day is put in, planned with a few steps, the plan taken. */
export async function plannedShop(now = morning, day = shopDay("small-morning")): Promise<PlannedShop> {
  const service = await testService({ now });
  const done = async (method: string, path: string, body: unknown) => {
    const reply = await service.ask(method, path, { body });
    if (reply.status >= 400) throw new Error(`${method} ${path} answers ${reply.status}: ${reply.text}`);
    return reply.body;
  };
  await done("PUT", "/day", day);
  const { id } = await done("POST", "/plans", { seconds: 120, steps: 6 });
  await service.finished(id);
  await done("POST", `/plans/${id}/accept`, {});
  return asPlanned(service);
}

/** The same at once, from a copy of the file of such a shop. */
export async function copiedShop(copyOf: string): Promise<PlannedShop> {
  return asPlanned(await testService({ now: morning, copyOf }));
}

async function asPlanned(service: TestService): Promise<PlannedShop> {
  const { id, plan } = (await service.ask("GET", "/plans/in-force")).body;
  return { service, day: (await service.ask("GET", "/day")).body, id, plan };
}
