/** Direct integer models of one oven with a fixed cycle, as text in the LP format that HiGHS reads. */
import { horizonOf } from "../help/public-jobs.ts";
import type { Job, JobProblem } from "../help/public-jobs.ts";

/**
 * Least total load time: x_j_k puts job j into the load whose longest job is k (jobs sorted, longest first; x_k_k opens
 * it). No big constants, so a strong relaxation.
 */
export function loadTimeModel({ jobs, capacity }: JobProblem): string {
  const sorted = jobs.toSorted((a, b) => b.minutes - a.minutes);
  const x = (j: number, k: number): string => `x_${j}_${k}`;
  const range = sorted.map((_, j) => j);
  const rows = [
    ...range.map((j) => `${sum(range.slice(0, j + 1).map((k) => [1, x(j, k)]))} = 1`),
    ...sorted.map((opener, k) => {
      const members = sorted.slice(k + 1).map((job, i): Term => [job.size, x(k + 1 + i, k)]);
      return `${sum([...members, [opener.size - capacity, x(k, k)]])} <= 0`;
    }),
    ...range.flatMap((k) => range.slice(k + 1).map((j) => `${x(j, k)} - ${x(k, k)} <= 0`)),
  ];
  const binaries = range.flatMap((k) => range.slice(k).map((j) => x(j, k)));
  return model(sum(sorted.map((job, k) => [job.minutes, x(k, k)])), rows, binaries);
}

/** Least weighted tardiness: x_j_b puts job j into the b-th load; s, p and t are starts, load times and tardiness. */
export function tardinessModel(problem: JobProblem): string {
  const { jobs, capacity } = problem;
  const big = horizonOf(problem);
  const places = jobs.map((_, b) => b);
  const rows = [
    ...jobs.map((_, j) => `${sum(places.map((b) => [1, `x_${j}_${b}`]))} = 1`),
    ...places.map((b) => `${sum(jobs.map((job, j) => [job.size, `x_${j}_${b}`]))} <= ${capacity}`),
    ...places.slice(1).map((b) => `s_${b} - s_${b - 1} - p_${b - 1} >= 0`),
    ...jobs.flatMap((job, j) => places.flatMap((b) => jobRows(job, j, b, big))),
  ];
  const binaries = jobs.flatMap((_, j) => places.map((b) => `x_${j}_${b}`));
  return model(sum(jobs.map((job, j) => [job.weight, `t_${j}`])), rows, binaries);
}

function jobRows(job: Job, j: number, b: number, big: number): string[] {
  const x = `x_${j}_${b}`;
  const due = job.due ?? big;
  return [
    `p_${b} - ${job.minutes} ${x} >= 0`,
    `s_${b} - ${job.release} ${x} >= 0`,
    `t_${j} - s_${b} - p_${b} - ${big} ${x} >= ${-due - big}`,
  ];
}

type Term = readonly [factor: number, name: string];

function sum(terms: readonly Term[]): string {
  return terms.map(([factor, name]) => `${factor < 0 ? "-" : "+"} ${Math.abs(factor)} ${name}`).join(" ");
}

function model(cost: string, rows: readonly string[], binaries: readonly string[]): string {
  const numbered = rows.map((row, i) => `r${i}: ${row}`).join("\n");
  return `Minimize\ncost: ${cost}\nSubject To\n${numbered}\nBinary\n${binaries.join("\n")}\nEnd\n`;
}
