/** The metal windows of coats on one temperature line, and the same as a table. */
import { bare, rounded, temperature } from "../parts/figures.ts";
import { Table } from "../parts/table.tsx";
import { words } from "../shell/words-en.ts";
import type { CoatingFile } from "./coating-form.tsx";

const rowHigh = 46;
const nameHigh = 30;
const axisHigh = 26;
const barHigh = 16;
const stepC = 100;

interface Row {
  readonly coating: string;
  readonly coat: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly soak: string;
}

interface Bar {
  readonly coat: string;
  readonly low: number;
  readonly high: number;
  /** Top of its row, px. */
  readonly y: number;
}

/** Bars of one coating below its name. */
interface Block {
  readonly coating: string;
  readonly y: number;
  readonly bars: readonly Bar[];
  readonly end: number;
}

function blocksOf(coatings: readonly CoatingFile[]): readonly Block[] {
  return coatings.reduce<readonly Block[]>((before, coating) => {
    const y = before.at(-1)?.end ?? 0;
    const bars = rowsOf(coating)
      .flatMap(({ coat, low, high }) => (low === null || high === null ? [] : [{ coat, low, high }]))
      .map((bar, i) => ({ ...bar, y: y + nameHigh + i * rowHigh }));
    return [...before, { coating: coating.name ?? coating.id, y, bars, end: y + nameHigh + bars.length * rowHigh }];
  }, []);
}

export function WindowsLine({ coatings }: { readonly coatings: readonly CoatingFile[] }) {
  const w = words.shop;
  const rows = coatings.flatMap(rowsOf);
  const blocks = blocksOf(coatings);
  const highest = Math.max(100, ...blocks.flatMap(({ bars }) => bars.map((bar) => bar.high)));
  const highC = Math.ceil((highest + 20) / 50) * 50;
  const percent = (c: number): string => `${((Math.max(0, c) / highC) * 100).toFixed(2)}%`;
  const high = (blocks.at(-1)?.end ?? 0) + axisHigh;
  return (
    <figure class="windows">
      <figcaption>{w.windows}</figcaption>
      <svg width="100%" height={high} role="img" aria-label={w.windows}>
        {Array.from({ length: Math.floor(highC / stepC) + 1 }, (_, i) => i * stepC).map((c) => (
          <>
            <line class="hour" x1={percent(c)} x2={percent(c)} y1={0} y2={high - axisHigh} />
            <text x={percent(c)} y={high - 8} text-anchor={c === 0 ? "start" : "middle"}>
              {c === 0 ? temperature(c) : bare("temperature", c)}
            </text>
          </>
        ))}
        {blocks.map((block) => (
          <>
            <text class="coating" x="0" y={block.y + 21}>
              {block.coating}
            </text>
            {block.bars.map((bar) => {
              const isRight = bar.low + bar.high > 0.9 * highC;
              return (
                <>
                  <text
                    x={percent(isRight ? bar.high : bar.low)}
                    y={bar.y + 17}
                    text-anchor={isRight ? "end" : "start"}
                  >{`${bar.coat}, ${w.window(temperature(bar.low), temperature(bar.high))}`}</text>
                  <rect
                    class="window one"
                    x={percent(bar.low)}
                    width={percent(Math.max(1, bar.high - bar.low))}
                    y={bar.y + 23}
                    height={barHigh}
                  />
                </>
              );
            })}
          </>
        ))}
      </svg>
      <details>
        <summary>{w.windowsTable}</summary>
        <Table
          caption={w.windowsTable}
          columns={[w.column.coat, w.column.coating, w.column.window, w.column.soak]}
          rows={rows.map((row) => [
            row.coat,
            row.coating,
            row.low === null || row.high === null ? w.noWindow : w.window(temperature(row.low), temperature(row.high)),
            row.soak,
          ])}
        />
      </details>
    </figure>
  );
}

function rowsOf({ id, name, coats }: CoatingFile): Row[] {
  return coats.map((coat, i) => {
    const { metalLowC = null, metalHighC = null, soakLeastMinutes = null, soakMostMinutes = null } = coat.bake;
    return {
      coating: name ?? id,
      coat: coat.name ?? String(i + 1),
      low: metalLowC,
      high: metalHighC,
      soak:
        soakLeastMinutes === null || soakMostMinutes === null
          ? words.none
          : words.shop.soak(rounded(soakLeastMinutes), rounded(soakMostMinutes)),
    };
  });
}
