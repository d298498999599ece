/** What a plan was made from, so that it can be made again. */
import { z } from "zod";
import { instant, name } from "./parts.ts";

/** What came to a search and when, counted in its own questions. */
export const courseSchema = z
  .string()
  .nullable()
  .describe(
    "of the search, as gzipped JSON in base64: with it a plan by the clock can be made again; null: none is kept",
  );

export const requestSchema = z.object({
  day: z.unknown().describe("the day file it was planned from"),
  wishes: z
    .record(name, instant)
    .describe(
      "of a quote: the promises, pan by pan, that the search aimed for in place of the one that was then given",
    ),
  options: z.unknown().describe("seed, steps, seconds, gapPercent"),
  version: z.string().describe("of the program"),
  course: courseSchema,
});
