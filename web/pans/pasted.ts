/** What a spreadsheet puts on the clipboard stands in columns with tabs between them; the service reads CSV. */

/** Text with tabs in its first line becomes CSV (RFC 4180); anything else is left as it is. */
export function asCsv(text: string): string {
  const first = text.split(/\r?\n/, 1)[0] ?? "";
  if (!first.includes("\t")) return text;
  return text
    .split(/\r?\n/)
    .map((line) => (line.trim() === "" ? "" : line.split("\t").map(quoted).join(";")))
    .join("\r\n");
}

function quoted(cell: string): string {
  return /[";\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
