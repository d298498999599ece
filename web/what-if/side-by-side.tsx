/** Each variant's cost, gas and lateness with how far they are from the day as it stands, then the same in words. */
import type { ComponentChildren } from "preact";
import type { DayFile } from "../../api/contract/day.ts";
import type { WhatIf, WhatIfCase } from "../../api/contract/what-if.ts";
import { whenOf } from "../parts/clock.ts";
import { ovenName } from "../parts/day-lookup.ts";
import { gas, money, rounded } from "../parts/figures.ts";
import { inUnits } from "../parts/said.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";

interface Parts {
  readonly read: WhatIf;
  readonly day: DayFile;
}

export function SideBySide({ read, day }: Parts) {
  const w = words.whatIf;
  const cases = [read.base, ...read.variants];
  const c = w.column;
  const told = read.variants.filter((one) => one.told.length > 0);
  return (
    <>
      <h2>{w.table}</h2>
      <Table
        caption={w.table}
        columns={[c.what, c.cost, c.gas, c.late, c.lateMinutes, c.leftOver, c.firings, c.finish]}
        rows={cases.map((one) => [nameOf(one, day), ...cellsOf(one, read)])}
      />
      <p class="fine">{w.sameSteps(read.steps)}</p>
      {told.length > 0 && (
        <>
          <h2>{w.inWords}</h2>
          <dl class="inwords">
            {told.map((one) => (
              <div>
                <dt>{nameOf(one, day)}</dt>
                {one.told.map((sentence) => (
                  <dd>{inUnits(sentence)}</dd>
                ))}
              </div>
            ))}
          </dl>
        </>
      )}
    </>
  );
}

function nameOf({ variant }: WhatIfCase, day: DayFile): string {
  const w = words.whatIf;
  if (variant === null) return w.asItStands;
  switch (variant.kind) {
    case "wait":
      return w.wait(variant.minutes);
    case "sprayers":
      return w.sprayer;
    case "slack":
      return w.slack(variant.minutes);
    case "shelf-out":
      return w.shelfOut(variant.shelf, ovenName(day, variant.oven));
  }
}

/** Seven cells; a case that could not be worked out says why in the first. */
function cellsOf({ figures, difference, problem }: WhatIfCase, { currency, asOf }: WhatIf): ComponentChildren[] {
  const w = words.whatIf;
  if (figures === null) return [problem ?? w.waiting, ...Array<null>(6).fill(null)];
  const euro = (n: number): string => money(n, currency);
  const plain = (n: number): string => rounded(n);
  const min = (n: number): string => w.minutes(rounded(n));
  return [
    <Cell shown={euro(figures.cost)} by={difference?.cost} as={euro} />,
    <Cell shown={gas(figures.gasKWh)} by={difference?.gasKWh} as={gas} />,
    <Cell shown={plain(figures.lateTickets)} by={difference?.lateTickets} as={plain} />,
    <Cell shown={min(figures.latePanMinutes)} by={difference?.latePanMinutes} as={min} />,
    <Cell shown={plain(figures.leftOverPans)} by={difference?.leftOverPans} as={plain} />,
    <Cell shown={plain(figures.firings)} by={difference?.firings} as={plain} />,
    <Cell
      shown={figures.finishAt === null ? w.none : whenOf(figures.finishAt, asOf)}
      by={difference?.finishMinutes ?? undefined}
      as={min}
      isTime
    />,
  ];
}

interface CellParts {
  readonly shown: string;
  /** More than the day as it stands; undefined: it is the day as it stands, or not known yet. */
  readonly by: number | undefined;
  readonly as: (n: number) => string;
  /** Not more or less, but later or earlier. */
  readonly isTime?: boolean;
}

function Cell({ shown, by, as, isTime = false }: CellParts) {
  return (
    <>
      <strong>{shown}</strong>
      {by !== undefined && <small class="by">{saidBy(by, as, isTime)}</small>}
    </>
  );
}

/** A difference that rounds to nothing is the same. */
function saidBy(by: number, as: (n: number) => string, isTime: boolean): string {
  const { whatIf, difference } = words;
  const size = as(Math.abs(by));
  if (size === as(0)) return whatIf.same;
  if (isTime) return by > 0 ? difference.later(size) : difference.earlier(size);
  return by > 0 ? whatIf.more(size) : whatIf.less(size);
}
