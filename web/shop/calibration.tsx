/** An oven's figures as its readings propose them: shown beside the present ones, put into the form on request. */
import { useState } from "preact/hooks";
import type { CalibrationAnswer } from "../../api/contract/calibrating.ts";
import { gas, rounded, temperatureSpan } from "../parts/figures.ts";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import { Table } from "../parts/table.tsx";
import { ask, saidOf } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { wordsOf } from "./figures.tsx";
import type { OvenFile } from "./oven-form.tsx";
import { withValue } from "./values.ts";

interface CalibrationParts {
  readonly oven: OvenFile;
  readonly onUse: (oven: OvenFile) => void;
}

export function Calibration({ oven, onUse }: CalibrationParts) {
  const w = words.shop.calibration;
  const [answer, setAnswer] = useState<CalibrationAnswer | null>(null);
  const [said, setSaid] = useState("");
  const [isAsking, setAsking] = useState(false);
  const send = (): void => {
    setAsking(true);
    setSaid("");
    ask<CalibrationAnswer>("POST", `/ovens/${encodeURIComponent(oven.id)}/calibration`, {})
      .then(setAnswer, (trouble: unknown) => setSaid(saidOf(trouble)))
      .finally(() => setAsking(false));
  };
  return (
    <section>
      <h2>{w.title}</h2>
      <p>{w.lead}</p>
      <p class="buttons">
        <button type="button" class="second" disabled={isAsking} onClick={send}>
          {isAsking ? w.asking : w.ask}
        </button>
      </p>
      {said !== "" && <Notice kind="alert">{said}</Notice>}
      {answer !== null && <Proposed answer={answer} onUse={() => onUse(withProposed(oven, answer))} />}
    </section>
  );
}

/** Only what the readings tell; everything else of the form stays. */
function withProposed(oven: OvenFile, { figures }: CalibrationAnswer): OvenFile {
  return figures
    .filter(({ told }) => told)
    .reduce((changed, { figure, proposed }) => withValue(changed, ["cycle", figure], proposed), oven);
}

function Proposed({ answer, onUse }: { readonly answer: CalibrationAnswer; readonly onUse: () => void }) {
  const w = words.shop.calibration;
  const c = w.column;
  const { figures, residualNow, residualProposed } = answer;
  const apart = (of: (n: number) => string, n: number | null): string => (n === null ? words.none : of(n));
  return (
    <>
      <p>{w.used(answer.readings, answer.firings)}</p>
      <Table
        caption={w.table}
        columns={[c.figure, c.now, c.proposed, c.error, c.says]}
        rows={figures.map(({ figure, now, proposed, errorPercent, told }) => [
          wordsOf(`cycle.${figure}`).label,
          plain(now),
          plain(proposed),
          w.percent(rounded(errorPercent, 1)),
          told ? w.told : w.untold,
        ])}
      />
      <Table
        caption={w.fit}
        columns={["", c.now, c.proposed]}
        rows={[
          [
            w.residual.chamber,
            apart(temperatureSpan, residualNow.chamberK),
            apart(temperatureSpan, residualProposed.chamberK),
          ],
          [
            w.residual.metal,
            apart(temperatureSpan, residualNow.metalK),
            apart(temperatureSpan, residualProposed.metalK),
          ],
          [w.residual.gas, apart(gas, residualNow.gasKWh), apart(gas, residualProposed.gasKWh)],
        ]}
      />
      <h3>{w.inWords}</h3>
      <ul>
        {answer.words.map((sentence) => (
          <li>{inUnits(sentence)}</li>
        ))}
      </ul>
      <p class="buttons">
        <button type="button" disabled={!figures.some(({ told }) => told)} onClick={onUse}>
          {w.use}
        </button>
      </p>
    </>
  );
}

const mostDigits = 4;

/** With the digits that it has. */
function plain(n: number): string {
  const digits = String(n).split(".")[1]?.length ?? 0;
  return rounded(n, Math.min(digits, mostDigits));
}
