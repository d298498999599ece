/** What the environment says: which file, which address, who may come in. Anything wrong is said before the start. */

export interface Settings {
  /** Path of the shop's file. */
  readonly file: string;
  readonly host: string;
  /** 0: any free one. */
  readonly port: number;
  /** Null: none needed, because only this machine can reach the service. */
  readonly token: string | null;
  /** Further names this machine goes by, as the tablet's browser sends them. */
  readonly names: readonly string[];
}

export class BadSetting extends Error {}

type Environment = Readonly<Record<string, string | undefined>>;

export function readSettings(environment: Environment): Settings {
  const host = environment["OVENFUL_HOST"]?.trim() || "127.0.0.1";
  const token = environment["OVENFUL_TOKEN"]?.trim() || null;
  if (!isLoopback(host) && token === null)
    throw new BadSetting(
      `OVENFUL_HOST=${host} lets other machines in: set OVENFUL_TOKEN to a secret of at least 16 characters as well.`,
    );
  if (token !== null && token.length < 16) throw new BadSetting("OVENFUL_TOKEN is too short: at least 16 characters.");
  return {
    file: environment["OVENFUL_DB"]?.trim() || "./ovenful.db",
    host,
    port: portOf(environment["OVENFUL_PORT"]),
    token,
    names: (environment["OVENFUL_NAMES"] ?? "").split(",").flatMap((name) => name.trim().toLowerCase() || []),
  };
}

function portOf(text: string | undefined): number {
  if (text === undefined || text.trim() === "") return 8742;
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new BadSetting(`OVENFUL_PORT=${text} is no port: a whole number from 0 to 65535.`);
  return port;
}

export function isLoopback(host: string): boolean {
  return host === "localhost" || host === "::1" || /^127(\.\d{1,3}){3}$/.test(host);
}
