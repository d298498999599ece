/** The three questions at the counter: which pans, which coat, wanted when. */
import type { DayFile } from "../../api/contract/day.ts";
import type { Problem } from "../../api/contract/problem.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { words } from "../shell/words-en.ts";
import { JobLineFields } from "./job-line.tsx";
import { newLine } from "./job.ts";
import type { Job, JobLine } from "./job.ts";

interface FormParts {
  readonly day: DayFile;
  readonly job: Job;
  readonly problems: readonly Problem[];
  readonly isAsking: boolean;
  readonly onJob: (job: Job) => void;
  readonly onAsk: () => void;
}

export function JobForm({ day, job, problems, isAsking, onJob, onAsk }: FormParts) {
  const w = words.rush;
  const at = (i: number, line: JobLine): void => onJob({ ...job, lines: job.lines.with(i, line) });
  const wrong = (...fields: readonly string[]): string | undefined =>
    problems.find(({ path }) => fields.some((field) => path === field || path.startsWith(`${field}.`)))?.message;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        onAsk();
      }}
    >
      <fieldset class="question">
        <legend>{w.which}</legend>
        {job.lines.map((line, i) => (
          <JobLineFields
            day={day}
            line={line}
            place={i}
            wrong={(field) => wrong(...pathsOf(i, field))}
            onLine={(now) => at(i, now)}
            onDrop={job.lines.length > 1 ? () => onJob({ ...job, lines: job.lines.toSpliced(i, 1) }) : undefined}
          />
        ))}
        <button type="button" class="second" onClick={() => onJob({ ...job, lines: [...job.lines, newLine(day)] })}>
          {w.another}
        </button>
      </fieldset>
      <div class="fields">
        <ChoiceField
          label={w.coat}
          value={job.coating}
          options={day.coatings.map(({ id, name }) => [id, name ?? id])}
          problem={wrong(...job.lines.map((_, i) => `pans[${i}].coating`))}
          onChange={(coating) => onJob({ ...job, coating })}
        />
        <TextField
          label={w.when}
          why={w.whenHint}
          optional
          type="datetime-local"
          value={job.wish}
          problem={wrong(...job.lines.map((_, i) => `pans[${i}].promisedAt`))}
          onChange={(wish) => onJob({ ...job, wish })}
        />
        <TextField
          label={w.ticket}
          value={job.ticket}
          problem={wrong(...job.lines.flatMap((_, i) => [`pans[${i}].id`, `pans[${i}].ticket`]))}
          onChange={(ticket) => onJob({ ...job, ticket })}
        />
      </div>
      <p class="buttons">
        <button disabled={isAsking}>{isAsking ? w.asking : w.ask}</button>
      </p>
    </form>
  );
}

/** Where the service finds a field of line `i` wrong. */
function pathsOf(i: number, field: keyof JobLine): string[] {
  const inside = {
    body: ["material"],
    rimCm: ["shape"],
    pieces: ["quantity"],
    massKg: ["massKg"],
    heightCm: ["heightCm"],
    handleCm: [],
    benchMinutes: ["prepMinutes"],
  } satisfies Record<keyof JobLine, readonly string[]>;
  return inside[field].map((name) => `pans[${i}].${name}`);
}
