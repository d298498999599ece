/** Why not? Two pans, or a pan and a load: the sentence with its numbers, and both metals over their windows. */
import { useEffect, useState } from "preact/hooks";
import type { ExplainAnswer } from "../../api/contract/explaining.ts";
import { ovenName } from "../parts/day-lookup.ts";
import { ChoiceField } from "../parts/field.tsx";
import { Notice } from "../parts/notice.tsx";
import { inUnits } from "../parts/said.ts";
import type { ScreenParts } from "../shell/screens.tsx";
import { attempt } from "../shell/live.ts";
import { saidOf } from "../shell/service.ts";
import type { WaitingPan } from "../shell/service.ts";
import { words } from "../shell/words-en.ts";
import { askablePans, explain, loadChoices, panChoices } from "./asked.ts";
import type { Choice } from "./asked.ts";
import { Explained } from "./explained.tsx";

/** What was asked is kept with the answer, so that an answer never stands under another question. */
type Told =
  | { readonly kind: "nothing" | "asking" }
  | { readonly kind: "trouble"; readonly said: string }
  | { readonly kind: "answer"; readonly answer: ExplainAnswer };

export function Why({ live, now, rest }: ScreenParts) {
  const w = words.why;
  const [pans, setPans] = useState<readonly WaitingPan[]>([]);
  const [one, setOne] = useState(rest);
  const [chosen, setOther] = useState("");
  const [told, setTold] = useState<Told>({ kind: "nothing" });
  useEffect(() => void attempt(async () => setPans(await askablePans())), [live.turn]);
  const { day } = live;
  const nameOf = (id: string): string => (day === null ? id : ovenName(day, id));
  const first = panChoices(pans);
  // A line of several alike pans may be asked about with itself.
  const second = first.filter(([id]) => id !== one || (pans.find((pan) => pan.id === id)?.quantity ?? 1) > 1);
  const seconds = withEmpty([...loadChoices(live.loads, now, one, nameOf), ...second]);
  // A load may have been opened since, or turned out to hold the pan.
  const other = seconds.some(([id]) => id === chosen) ? chosen : "";
  useEffect(() => {
    if (one === "" || other === "") return setTold({ kind: "nothing" });
    let isLeft = false;
    setTold({ kind: "asking" });
    explain(one, other).then(
      (answer) => isLeft || setTold({ kind: "answer", answer }),
      (trouble: unknown) => isLeft || setTold({ kind: "trouble", said: saidOf(trouble) }),
    );
    return () => {
      isLeft = true;
    };
  }, [one, other, live.turn]);
  return (
    <>
      <h1>{w.title}</h1>
      <p>{w.lead}</p>
      <div class="fields two">
        <ChoiceField label={w.pan} value={one} options={withEmpty(first)} onChange={setOne} />
        <ChoiceField label={w.other} value={other} options={seconds} onChange={setOther} />
      </div>
      <div class="verdict">
        <ToldNotice told={told} />
      </div>
      {told.kind === "answer" && <Explained answer={told.answer} ovenName={nameOf} />}
    </>
  );
}

function withEmpty(choices: readonly Choice[]): readonly Choice[] {
  return [["", words.why.pick], ...choices];
}

function ToldNotice({ told }: { readonly told: Told }) {
  const w = words.why;
  switch (told.kind) {
    case "nothing":
      return null;
    case "asking":
      return <Notice kind="status">{w.asking}</Notice>;
    case "trouble":
      return <Notice kind="alert">{told.said}</Notice>;
    case "answer":
      return (
        <Notice kind={told.answer.shares ? "status" : "alert"}>
          <strong class="yesno">{told.answer.shares ? w.yes : w.no}</strong>
          {told.answer.words.map((sentence) => (
            <p>{inUnits(sentence)}</p>
          ))}
        </Notice>
      );
  }
}
