/** How this browser's reader writes numbers and times. */

/** The first of the browser's languages that it can format for; undefined: its own default. Some name a language oddly. */
export const language: string | undefined = navigator.languages.find(isKnown);

function isKnown(tag: string): boolean {
  try {
    return Intl.NumberFormat.supportedLocalesOf(tag).length > 0;
  } catch {
    return false;
  }
}
