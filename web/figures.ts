/** Numbers with their units. */
export function rounded(value: number, digits = 0): string {
  return value.toFixed(digits);
}

export function degrees(c: number | null): string | null {
  return c === null ? null : `${rounded(c)} °C`;
}

export function money(value: number, currency: string): string {
  return new Intl.NumberFormat("en", { style: "currency", currency }).format(value);
}
