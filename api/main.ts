/** `npm start`: the service for the shop's own PC. Prints its address; stops in order on Ctrl-C or when told to. */
import { wallClock } from "./clock.ts";
import { firstStart } from "./first-start.ts";
import { startService, serviceLogger } from "./service.ts";
import { BadSetting, readSettings } from "./settings.ts";
import { FileInUse } from "./store/one-writer.ts";

try {
  const settings = readSettings(process.env);
  const logger = serviceLogger(process.env["OVENFUL_LOG"] ?? "info");
  const service = await startService({ settings, clock: wallClock, logger });
  let stopping = false;
  const stop = (): void => {
    if (stopping) process.exit(1);
    stopping = true;
    service.stop().then(
      () => process.exit(0),
      () => process.exit(1),
    );
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, stop);
  if (process.env["npm_lifecycle_event"] !== undefined) whenOrphaned(stop);
  await firstStart(service, wallClock);
  process.stdout.write(`Ovenful is at ${service.address} and keeps its data in ${settings.file}\n`);
} catch (error) {
  const said = error instanceof FileInUse || error instanceof BadSetting || isSystem(error);
  process.stderr.write(
    `${said && error instanceof Error ? error.message : error instanceof Error ? error.stack : String(error)}\n`,
  );
  process.exit(1);
}

/** npm starts us through a shell that hands no signal on and dies of it: the shell's end is told by our new parent. */
function whenOrphaned(stop: () => void): void {
  const parent = process.ppid;
  const look = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(look);
    stop();
  }, 200);
  look.unref();
}

function isSystem(error: unknown): boolean {
  return (
    error instanceof Error && "code" in error && ["EADDRINUSE", "EACCES", "EADDRNOTAVAIL"].includes(String(error.code))
  );
}
