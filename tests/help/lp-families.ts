/** Random models of the kinds that have been seen to break simplex codes, each from its own seed. */
import type { Column, LinearModel, Row } from "../../solver/lp/model.ts";

/** Draws: `real` in [0, 1), `whole` from `low` to `high` both included, `chance` true with the given probability. */
export interface Draw {
  real(): number;
  whole(low: number, high: number): number;
  chance(p: number): boolean;
}

/** Mulberry32, a public-domain generator; enough for test data. */
export function drawFrom(seed: number): Draw {
  let state = seed >>> 0;
  const real = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return { real, whole: (low, high) => low + Math.floor(real() * (high - low + 1)), chance: (p) => real() < p };
}

export type Family = (draw: Draw) => LinearModel;

export const linearFamilies: Readonly<Record<string, Family>> = {
  packing,
  mixedRows,
  degenerateCover: (draw) => cover(draw, false, ">="),
  degeneratePartition: (draw) => cover(draw, false, "="),
  transport,
  plantedEqualities,
  ranges,
  badlyScaled,
  freeUnknowns: (draw) => freeUnknowns(draw, false),
  startTimes,
};

export const integerFamilies: Readonly<Record<string, Family>> = {
  knapsack,
  partition: (draw) => cover(draw, true, "="),
  cover: (draw) => cover(draw, true, ">="),
  generalIntegers,
  fixedCharge,
  parityInfeasible,
  assignmentSideRow,
  freeIntegers: (draw) => freeUnknowns(draw, true),
};

function list<T>(n: number, make: (k: number) => T): T[] {
  return Array.from({ length: n }, (_, k) => make(k));
}

/** A row whose nonzeros appear with probability `density`; never empty. */
function sparse(draw: Draw, n: number, density: number, value: () => number, kind: Row["kind"], rhs: number): Row {
  const columns = list(n, (j) => j).filter(() => draw.chance(density));
  if (columns.length === 0) columns.push(draw.whole(0, n - 1));
  return { kind, rhs, columns, values: columns.map(value) };
}

function packing(draw: Draw): LinearModel {
  const n = draw.whole(2, 60);
  const row = (): Row => sparse(draw, n, 0.4, () => draw.whole(1, 20), "<=", draw.whole(10, 200));
  return { sense: "max", columns: list(n, () => ({ cost: draw.whole(1, 50) })), rows: list(draw.whole(1, 30), row) };
}

function mixedRows(draw: Draw): LinearModel {
  const n = draw.whole(2, 40);
  const kinds = ["<=", ">=", "="] as const;
  const row = (): Row =>
    sparse(draw, n, 0.5, () => draw.whole(-9, 9) || 1, kinds[draw.whole(0, 2)] ?? "<=", draw.whole(-40, 60));
  return {
    sense: draw.chance(0.5) ? "min" : "max",
    columns: list(n, () =>
      draw.chance(0.5) ? { cost: draw.whole(-9, 20) } : { cost: draw.whole(-9, 9), high: draw.whole(1, 30) },
    ),
    rows: list(draw.whole(1, 25), row),
  };
}

/** Costs from few values and 0/1 columns: many ties. */
function cover(draw: Draw, integer: boolean, kind: ">=" | "="): LinearModel {
  const m = draw.whole(3, integer ? 14 : 30);
  const n = draw.whole(m, integer ? 50 : 80);
  const size = draw.whole(2, 5);
  const members = list(n, (j) => {
    const own = new Set(j < m && draw.chance(0.9) ? [j] : []);
    while (own.size < Math.min(m, j < m ? 1 : size)) own.add(draw.whole(0, m - 1));
    return own;
  });
  const tie = draw.chance(0.5);
  const columns: Column[] = members.map((own) => ({ cost: tie ? own.size : draw.whole(1, 12), integer }));
  const rows: Row[] = list(m, (i) => {
    const at = list(n, (j) => j).filter((j) => members[j]?.has(i));
    return { kind, rhs: 1, columns: at, values: at.map(() => 1) };
  });
  return { sense: "min", columns, rows: rows.filter((row) => row.columns.length > 0) };
}

function transport(draw: Draw): LinearModel {
  const from = draw.whole(2, 8);
  const to = draw.whole(2, 9);
  const need = list(to, () => draw.whole(1, 20));
  const total = need.reduce((a, b) => a + b, 0);
  const stock = list(from, () => Math.ceil(total / from) + draw.whole(draw.chance(0.1) ? -3 : 0, 4));
  const columns = list(from * to, () => ({ cost: draw.whole(1, 9) }));
  const leaving = stock.map((rhs, i): Row => ({
    kind: "<=",
    rhs,
    columns: list(to, (j) => i * to + j),
    values: list(to, () => 1),
  }));
  const arriving = need.map((rhs, j): Row => ({
    kind: "=",
    rhs,
    columns: list(from, (i) => i * to + j),
    values: list(from, () => 1),
  }));
  return { sense: "min", columns, rows: [...leaving, ...arriving] };
}

/** Equalities through a planted point, some of them twice. */
function plantedEqualities(draw: Draw): LinearModel {
  const n = draw.whole(3, 40);
  const point = list(n, () => (draw.chance(0.5) ? 0 : draw.real() * 10));
  const rows: Row[] = [];
  for (let i = draw.whole(1, Math.min(n, 20)); i > 0; i--) {
    const row = sparse(draw, n, 0.4, () => draw.whole(-5, 5) || 1, "=", 0);
    const rhs = row.columns.reduce((sum, j, k) => sum + (row.values[k] ?? 0) * (point[j] ?? 0), 0);
    rows.push({ ...row, rhs });
    if (draw.chance(0.3)) rows.push({ ...row, rhs: 2 * rhs, values: row.values.map((v) => 2 * v) });
  }
  return { sense: "min", columns: list(n, () => ({ cost: draw.chance(0.1) ? -draw.real() : draw.real() * 10 })), rows };
}

function ranges(draw: Draw): LinearModel {
  const n = draw.whole(2, 40);
  const rows = list(draw.whole(1, 12), () => {
    const row = sparse(draw, n, 0.5, () => draw.whole(-9, 9) || 2, "<=", draw.whole(0, 60));
    return [row, { ...row, kind: ">=", rhs: row.rhs - draw.whole(0, 20) } satisfies Row];
  }).flat();
  const columns = list(n, (): Column => {
    const low = draw.whole(-20, 10);
    return { cost: draw.whole(-9, 9), low, high: draw.chance(0.7) ? low + draw.whole(0, 25) : Infinity };
  });
  return { sense: draw.chance(0.5) ? "min" : "max", columns, rows };
}

/** Rows and columns of a mild model multiplied by powers of ten. */
function badlyScaled(draw: Draw): LinearModel {
  const plain = draw.chance(0.5) ? packing(draw) : mixedRows(draw);
  const size = plain.columns.map(() => 10 ** draw.whole(-3, 3));
  const columns = plain.columns.map((c, j): Column => {
    const s = size[j] ?? 1;
    return { cost: c.cost * s, high: (c.high ?? Infinity) / s };
  });
  const rows = plain.rows.map((row): Row => {
    const r = 10 ** draw.whole(-2, 3);
    return { ...row, rhs: row.rhs * r, values: row.values.map((v, k) => v * r * (size[row.columns[k] ?? 0] ?? 1)) };
  });
  return { sense: plain.sense, columns, rows };
}

function freeUnknowns(draw: Draw, integer: boolean): LinearModel {
  const n = draw.whole(1, integer ? 8 : 25);
  const low = (): number => (draw.chance(0.5) ? -Infinity : draw.whole(-30, 5));
  const columns = list(n, (): Column => {
    const from = low();
    const high = draw.chance(0.5) ? Infinity : Math.max(from, -30) + draw.whole(0, 40);
    return { cost: draw.whole(-9, 9), low: from, high, integer: integer && draw.chance(0.7) };
  });
  const kinds = ["<=", ">=", "="] as const;
  const row = (): Row =>
    sparse(
      draw,
      n,
      0.5,
      () => draw.whole(-9, 9) || 1,
      kinds[draw.whole(0, draw.chance(0.3) ? 2 : 1)] ?? "<=",
      draw.whole(-60, 60),
    );
  return { sense: draw.chance(0.5) ? "min" : "max", columns, rows: list(draw.whole(1, integer ? 8 : 25), row) };
}

/** Start times of chained tasks, finish and lateness costs: the timing model's shape. */
function startTimes(draw: Draw): LinearModel {
  const n = draw.whole(3, 30);
  const columns: Column[] = list(n, () => ({
    cost: draw.chance(0.1) ? -0.001 : 0,
    low: draw.whole(0, 100),
    high: draw.whole(300, 900),
  }));
  const rows: Row[] = list(draw.whole(n, 3 * n), () => {
    const i = draw.whole(0, n - 2);
    return { kind: ">=", rhs: draw.whole(1, 45), columns: [draw.whole(i + 1, n - 1), i], values: [1, -1] };
  });
  const finish = columns.push({ cost: 0.3 }) - 1;
  for (let i = 0; i < n; i++) rows.push({ kind: ">=", rhs: draw.whole(20, 60), columns: [finish, i], values: [1, -1] });
  for (let i = 0; i < n; i += 3) {
    const late = columns.push({ cost: draw.whole(1, 9) / 60 }) - 1;
    rows.push({ kind: ">=", rhs: -draw.whole(60, 500), columns: [late, i], values: [1, -1] });
  }
  return { sense: "min", columns, rows };
}

function knapsack(draw: Draw): LinearModel {
  const n = draw.whole(2, 25);
  const rows = list(draw.whole(1, 3), () => sparse(draw, n, 0.9, () => draw.whole(3, 30), "<=", draw.whole(20, 150)));
  const columns = list(n, () => ({ cost: draw.whole(1, 40), high: draw.whole(1, 3), integer: true }));
  return { sense: "max", columns, rows };
}

function generalIntegers(draw: Draw): LinearModel {
  const n = draw.whole(2, 10);
  const kinds = ["<=", ">=", "="] as const;
  const row = (): Row =>
    sparse(
      draw,
      n,
      0.6,
      () => draw.whole(-7, 9) || 1,
      kinds[draw.whole(0, draw.chance(0.2) ? 2 : 1)] ?? "<=",
      draw.whole(-20, 60),
    );
  const columns = list(n, () => ({ cost: draw.whole(-9, 15), high: draw.whole(2, 40), integer: draw.chance(0.7) }));
  return { sense: draw.chance(0.5) ? "min" : "max", columns, rows: list(draw.whole(1, 8), row) };
}

/** Plants that must be opened (whole) before they deliver (continuous). */
function fixedCharge(draw: Draw): LinearModel {
  const plants = draw.whole(2, 7);
  const need = draw.whole(20, 80);
  const most = list(plants, () => draw.whole(10, 40));
  const columns: Column[] = [
    ...list(plants, () => ({ cost: draw.whole(10, 60), high: 1, integer: true })),
    ...list(plants, () => ({ cost: draw.whole(1, 6) })),
  ];
  const rows: Row[] = most.map((size, i) => ({ kind: "<=", rhs: 0, columns: [plants + i, i], values: [1, -size] }));
  rows.push({ kind: ">=", rhs: need, columns: list(plants, (i) => plants + i), values: list(plants, () => 1) });
  return { sense: "min", columns, rows };
}

/** Even coefficients and an odd sum: a feasible relaxation without a whole point. */
function parityInfeasible(draw: Draw): LinearModel {
  const n = draw.whole(2, 5);
  const columns = list(n, () => ({ cost: draw.whole(1, 9), high: draw.whole(1, 3), integer: true }));
  const parity: Row = {
    kind: "=",
    rhs: 2 * draw.whole(1, 4) + 1,
    columns: list(n, (j) => j),
    values: list(n, () => 2),
  };
  return { sense: "min", columns, rows: [parity] };
}

function assignmentSideRow(draw: Draw): LinearModel {
  const n = draw.whole(2, 6);
  const columns = list(n * n, () => ({ cost: draw.whole(1, 20), integer: true }));
  const one = list(n, () => 1);
  const rows = list(n, (i): Row[] => [
    { kind: "=", rhs: 1, columns: list(n, (j) => i * n + j), values: one },
    { kind: "=", rhs: 1, columns: list(n, (j) => j * n + i), values: one },
  ]).flat();
  rows.push({
    kind: "<=",
    rhs: draw.whole(4 * n, 9 * n),
    columns: list(n * n, (k) => k),
    values: list(n * n, () => draw.whole(1, 15)),
  });
  return { sense: "min", columns, rows };
}
