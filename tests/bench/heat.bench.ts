/**
 * Microseconds per simulated firing and per search of a load's firings; run by hand: npx tsx tests/bench/heat.bench.ts
 * Twelve pans, four distinct members, the demo oven; chamber temperatures differ from call to call, as in a search.
 */
import { bodyOf } from "../../solver/heat/body.ts";
import { simulateFiring } from "../../solver/heat/firing.ts";
import { firingOptions } from "../../solver/heat/options.ts";
import type { Member } from "../../solver/heat/members.ts";
import { demoCycle } from "../help/random-ovens.ts";

const pan = bodyOf({ shape: { kind: "disc", diameterCm: 28 }, heightCm: 5, massKg: 0.9, specificHeatJPerKgK: 900 });
const pot = bodyOf({ shape: { kind: "disc", diameterCm: 24 }, heightCm: 12, massKg: 1.6, specificHeatJPerKgK: 900 });
const primer = { lowC: 250, highC: 300, soakLeastMinutes: 10, soakMostMinutes: 25 };
const topCoat = { lowC: 380, highC: 415, soakLeastMinutes: 5, soakMostMinutes: 15 };

function membersWith(window: typeof primer): Member[] {
  return [
    { count: 3, body: pan, offsetC: 3, ...window },
    { count: 3, body: pan, offsetC: 0, ...window },
    { count: 3, body: pot, offsetC: 3, ...window },
    { count: 3, body: pot, offsetC: 0, ...window },
  ];
}

function report(name: string, rounds: number, run: (round: number) => void): void {
  for (let round = 0; round < rounds / 4; round++) run(round);
  const samples: number[] = [];
  for (let sample = 0; sample < 5; sample++) {
    const begun = performance.now();
    for (let round = 0; round < rounds; round++) run(round);
    samples.push(((performance.now() - begun) * 1000) / rounds);
  }
  samples.sort((one, other) => one - other);
  console.log(`${name}: median ${samples[2]!.toFixed(1)} µs, worst ${samples[4]!.toFixed(1)} µs`);
}

for (const [name, window] of [
  ["primer", primer],
  ["top coat", topCoat],
] as const) {
  const members = membersWith(window);
  const [option] = firingOptions(demoCycle, 20, members, 100);
  if (option === undefined) throw new Error(`no firing bakes the ${name} load`);
  const startC = (round: number): number => 20 + (round % 180) + round / 1e5;
  report(`${name}, simulateFiring, load kept`, 20_000, (round) => {
    simulateFiring(demoCycle, 20, members, startC(round), option);
  });
  report(`${name}, simulateFiring, load new each time`, 20_000, (round) => {
    simulateFiring(demoCycle, 20, [...members], startC(round), option);
  });
  report(`${name}, firingOptions, load kept`, 2_000, (round) => {
    firingOptions(demoCycle, 20, members, startC(round));
  });
  report(`${name}, firingOptions, load new each time`, 2_000, (round) => {
    firingOptions(demoCycle, 20, [...members], startC(round));
  });
  for (const chamberC of [20, 120, 200]) {
    const found = firingOptions(demoCycle, 20, members, chamberC);
    console.log(
      `  from ${chamberC} °C:`,
      found.map((o) => `${o.setPointC}°C ${o.unloadMinutes}min ${o.gasKWh.toFixed(1)}kWh`),
    );
  }
}
