/** A framed sentence: what went wrong, what to mind, what was done. Said aloud by a screen reader. */
import type { ComponentChildren } from "preact";

interface NoticeParts {
  /** alert: interrupts. status: waits its turn. plain: part of the page, not announced. */
  readonly kind: "alert" | "status" | "plain";
  readonly children: ComponentChildren;
}

export function Notice({ kind, children }: NoticeParts) {
  return (
    <div class={`notice ${kind}`} {...(kind === "plain" ? {} : { role: kind })}>
      {children}
    </div>
  );
}
