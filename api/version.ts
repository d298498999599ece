/** The program's version, kept with every plan so that any plan can be made again. */
import { readFileSync } from "node:fs";

const packageFile = JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8")) as {
  version: string;
};

export const version = packageFile.version;
