/** The service some way into a demo day: put in, planned with a few steps, the plan in use. */
import { shopDay, testService } from "./service.ts";
import type { TestService } from "./service.ts";

export async function shopInUse(now: string, name = "small-morning"): Promise<TestService> {
  const service = await testService({ now });
  const put = await service.ask("PUT", "/day", { body: shopDay(name) });
  if (put.status !== 200) throw new Error(`the day was not taken: ${put.text}`);
  const started = await service.ask("POST", "/plans", { body: { seconds: 120, steps: 40 } });
  await service.finished(started.body.id);
  const taken = await service.ask("POST", `/plans/${started.body.id}/accept`, { body: {} });
  if (taken.status !== 200) throw new Error(`the plan was not taken: ${taken.text}`);
  return service;
}
