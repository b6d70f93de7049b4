/**
 * Decimals to show of a value with this uncertainty, by the rule of the Particle Data Group: of the three
 * leading digits of the uncertainty, 100 to 354 keep two digits, 355 to 949 keep one, 950 to 999 are
 * rounded up to 1000 and keep two. Negative decimals mean tens, hundreds …
 *
 * Source: Review of Particle Physics, Introduction, 5.3 "Rounding".
 */
export function decimalsForShow(uncertainty: number): number {
  if (!(uncertainty > 0) || !Number.isFinite(uncertainty)) return 0
  const exponent = Math.floor(Math.log10(uncertainty))
  const leading = Math.round(uncertainty / 10 ** (exponent - 2))
  // 355 to 949 keep one digit; 950 to 999 become 1000, whose second digit stands in the same place.
  return (leading < 355 ? 1 : 0) - exponent
}

/**
 * A value and its uncertainty as they are to be shown.
 *
 * @example roundForShow(0.827, 0.119) // { value: 0.83, uncertainty: 0.12, decimals: 2 }
 */
export function roundForShow(
  value: number,
  uncertainty: number,
): { value: number; uncertainty: number; decimals: number } {
  const decimals = decimalsForShow(uncertainty)
  return { value: roundTo(value, decimals), uncertainty: roundTo(uncertainty, decimals), decimals }
}

function roundTo(value: number, decimals: number): number {
  // Dividing by a whole power keeps tens and hundreds exact, multiplying does so for decimals.
  return decimals >= 0
    ? Math.round(value * 10 ** decimals) / 10 ** decimals
    : Math.round(value / 10 ** -decimals) * 10 ** -decimals
}
