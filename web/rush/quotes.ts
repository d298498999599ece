/** Asks the service for a quote, follows it while it improves, takes it or drops it. */
import type { Quote, SearchAnswer } from "../../api/contract/searching.ts";
import type { DayFile } from "../../api/contract/day.ts";
import { Refused, acceptSearch, ask, watchSearch } from "../shell/service.ts";

export type QuoteAnswer = SearchAnswer & {
  readonly quote: Quote | null;
  /** Stands for the plan that these figures are of; null: no plan yet. */
  readonly offer: string | null;
};

/** A customer waits at the counter. */
const seconds = 12;

const read = (id: string): Promise<QuoteAnswer> => ask("GET", `/quotes/${encodeURIComponent(id)}`);
export const readDay = (): Promise<DayFile> => ask("GET", "/day");
export const askQuote = (pans: DayFile["pans"]): Promise<QuoteAnswer> => ask("POST", "/quotes", { pans, seconds });

/**
 * Takes the job as it was seen. Null: it is taken. Else a better plan had come in between: that answer, for whoever
 * stands at the counter to agree to; its search is over, so that it stays.
 */
export async function takeQuote({ id, offer }: QuoteAnswer): Promise<QuoteAnswer | null> {
  try {
    await acceptSearch(id, offer);
    return null;
  } catch (trouble) {
    if (trouble instanceof Refused && trouble.problems.some(({ path }) => path === "offer")) return read(id);
    throw trouble;
  }
}

/** Tells the quote as it stands after every better plan, one reading at a time. Answers how to stop following. */
export function followQuote(
  id: string,
  tell: (answer: QuoteAnswer) => void,
  fail: (trouble: unknown) => void,
): () => void {
  let isLeft = false;
  let isReading = false;
  let isNewer = false;
  const look = async (): Promise<void> => {
    isNewer = true;
    if (isReading) return;
    isReading = true;
    while (isNewer && !isLeft) {
      isNewer = false;
      const answer = await read(id);
      if (!isLeft) tell(answer);
    }
    isReading = false;
  };
  const leave = watchSearch(id, () => void look().catch(fail));
  return () => {
    isLeft = true;
    leave();
  };
}

/** What the plan in force says the ticket is promised for; null: no promise. */
export async function promiseOf(ticket: string): Promise<string | null> {
  const { tickets } = await ask<{ tickets: { ticket: string; promisedAt: string | null }[] }>("GET", "/tickets");
  return tickets.find((one) => one.ticket === ticket)?.promisedAt ?? null;
}
