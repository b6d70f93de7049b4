/** Two engines' sines differ in the last digits; a figure that was changed differs in the first ones. */
const relative = 1e-9

/**
 * Where two plain values differ: `rpm: 2331 stated, 2300 anew`. Numbers within 1e-9 of each other are the
 * same, and fields that are null on one side and absent on the other.
 */
export function differencesIn(stated: unknown, anew: unknown, at = ''): string[] {
  if (typeof stated === 'number' && typeof anew === 'number') {
    const apart = Math.abs(stated - anew)
    return apart <= relative * Math.max(1, Math.abs(stated), Math.abs(anew)) ? [] : [words(stated, anew, at)]
  }
  if (isObject(stated) && isObject(anew)) {
    const keys = new Set([...Object.keys(stated), ...Object.keys(anew)])
    return [...keys].flatMap(key => differencesIn(stated[key], anew[key], at === '' ? key : `${at}.${key}`))
  }
  return (stated ?? null) === (anew ?? null) ? [] : [words(stated, anew, at)]
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null

const words = (stated: unknown, anew: unknown, at: string) =>
  `${at || 'it'}: ${shown(stated)} stated, ${shown(anew)} anew`
const shown = (value: unknown) => (JSON.stringify(value) ?? 'nothing').slice(0, 60)
