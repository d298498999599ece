/** Where the command line's words go: streams, colour, and pipes that somebody closed. */
import type { Paint } from "./paint.ts";
import { colourful, plain } from "./paint.ts";

export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly paint: Paint;
  readonly errPaint: Paint;
  /** True where a person sees stderr. */
  readonly errIsTerminal: boolean;
}

/** Colour only for a terminal, and never with NO_COLOR set to anything (no-color.org) or TERM=dumb. */
export function terminal(): Terminal {
  const { stdout, stderr, env } = process;
  forgiveClosedPipe(stdout);
  forgiveClosedPipe(stderr);
  const colour = !env["NO_COLOR"] && env["TERM"] !== "dumb";
  return {
    out: (text) => write(stdout, text),
    err: (text) => write(stderr, text),
    paint: colour && stdout.isTTY ? colourful : plain,
    errPaint: colour && stderr.isTTY ? colourful : plain,
    errIsTerminal: stderr.isTTY,
  };
}

/** A reader who has seen enough (`| head`) is no failure: what is still to be said goes nowhere. */
function forgiveClosedPipe(stream: NodeJS.WriteStream): void {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE" && error.code !== "ERR_STREAM_DESTROYED") throw error;
  });
}

function write(stream: NodeJS.WriteStream, text: string): void {
  if (stream.writable) stream.write(text);
}
