/** The clock of this device, which the page draws by. */
import { useEffect, useState } from "preact/hooks";

const beatMs = 1_000;

/** Milliseconds; the component is drawn anew every second. */
export function useNow(): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const beat = setInterval(() => setNow(Date.now()), beatMs);
    return () => clearInterval(beat);
  }, []);
  return now;
}
