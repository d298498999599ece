/** Re-plans one after the other on a day in use: how soon the first answer comes, and whether it holds a plan. */
import { happenings } from "./happenings.ts";
import { chance } from "./day-chance.ts";
import { loadsOf } from "./audit-replan.ts";
import { shopDay, testService } from "./service.ts";

export interface FirstAnswers {
  readonly replans: number;
  readonly p50Ms: number;
  readonly worstMs: number;
  /** Answers that came without a plan. */
  readonly empty: number;
  readonly faults: readonly string[];
}

export async function firstAnswers(replans: number, seed: number): Promise<FirstAnswers> {
  const day = shopDay("full-day");
  const shop = await testService({ now: new Date(Date.parse(`${day.planFrom}:00Z`)).toISOString() });
  const draw = chance(seed);
  const took: number[] = [];
  const faults: string[] = [];
  let empty = 0;
  try {
    await shop.ask("PUT", "/day", { body: day });
    const { body } = await shop.ask("POST", "/plans", { body: { steps: 100, seconds: 60 } });
    const first = await shop.finished(body.id);
    await shop.ask("POST", `/plans/${body.id}/accept`, { body: {} });
    const planned = (await shop.ask("GET", `/plans/${body.id}/request`)).body.day;
    const bakes = first.plan!.loads.filter(({ kind }) => kind === "bake");
    for (let i = 0; i < replans; i++) {
      const load = bakes[draw.whole(0, Math.min(3, bakes.length - 1))]!;
      const now = (Date.parse(load.doorClosesAt) + Date.parse(load.unloadAt)) / 2;
      shop.setNow(new Date(now).toISOString());
      const all = happenings({ day: planned, loads: await loadsOf(shop), now, draw: () => draw.whole(0, 999) / 1000 });
      const { name, said } = draw.oneOf(all);
      const body = JSON.stringify({ happened: said, seconds: 20, steps: 50 });
      const headers = { "Content-Type": "application/json" };
      // Not by the client of the tests, which audits while the clock runs.
      const began = performance.now();
      const asked = await fetch(`${shop.address}/replans`, { method: "POST", headers, body });
      const text = await asked.text();
      const ms = performance.now() - began;
      if (asked.status === 409) continue;
      if (asked.status !== 202) faults.push(`${name}: ${asked.status} ${text.slice(0, 200)}`);
      else {
        took.push(ms);
        await shop.auditor.audit("/replans", "application/json", text);
        const answer = JSON.parse(text) as { id: string; plan: unknown; recorded: readonly number[] };
        if (answer.plan === null) empty++;
        await shop.finished(answer.id);
        for (const event of [...answer.recorded].toReversed())
          await shop.ask("POST", `/events/${event}/undo`, { body: {} });
      }
    }
    took.sort((a, b) => a - b);
    const worstMs = Math.round(took.at(-1) ?? 0);
    return { replans: took.length, p50Ms: Math.round(took[took.length >> 1] ?? 0), worstMs, empty, faults };
  } finally {
    await shop.stop();
  }
}
