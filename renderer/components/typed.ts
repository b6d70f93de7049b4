import { secondsOfText, textOfSeconds } from '../../core/units/duration.ts'
import { metresOfText } from '../../core/units/length.ts'

/** What fields were understood as, and what is wrong with which. */
export type Understood<F extends string> = {
  notes: Partial<Record<F, string>>
  problems: Partial<Record<F, string>>
}

export const inMilliseconds = (seconds: number) => `${Number((1000 * seconds).toPrecision(3))}\u00a0ms`
export const inMetres = (length: number) => `${Number(length.toPrecision(3))}\u00a0m`

/**
 * Reads what was typed into a form's fields. Nothing is guessed: a field that is not understood answers null
 * and has a problem that says what it takes; one that is may say what it was understood as.
 */
export function typed<F extends string>(texts: Partial<Record<F, string>>) {
  const notes: Understood<F>['notes'] = {}
  const problems: Understood<F>['problems'] = {}
  const textOf = (field: F) => (texts[field] ?? '').trim()
  const take = <T>(field: F, value: T | null, expected: string, note?: (value: T) => string): T | null => {
    if (value === null) problems[field] = expected
    else if (note) notes[field] = note(value)
    return value
  }
  return {
    notes,
    problems,
    textOf,
    take,
    /** Null without a problem where the field is empty. */
    known: <T>(field: F, read: (field: F) => T | null): T | null =>
      textOf(field) === '' ? null : read(field),
    number: (field: F, least: 'zero' | 'above zero' = 'above zero'): number | null => {
      const text = textOf(field).replace(',', '.')
      const value = text === '' ? Number.NaN : Number(text)
      const fits = Number.isFinite(value) && (value > 0 || (least === 'zero' && value === 0))
      return take(
        field,
        fits ? value : null,
        least === 'zero' ? 'A number of 0 or more.' : 'A number above 0.',
      )
    },
    exposure: (field: F, expected = 'A time as 1/2000 or 0.5 ms.') =>
      take(field, secondsOfText(textOf(field)), expected, seconds =>
        [textOfSeconds(seconds), inMilliseconds(seconds)]
          .filter((one, i, all) => all.indexOf(one) === i)
          .join(' = '),
      ),
    readout: (field: F) =>
      /^0+(\.0*)?\s*(s|ms)?$/.test(textOf(field))
        ? take(field, 0, '', () => 'global shutter')
        : take(
            field,
            secondsOfText(textOf(field)),
            'A time as 4 ms; 0 for a global shutter.',
            inMilliseconds,
          ),
    time: (field: F, expected: string) => take(field, secondsOfText(textOf(field)), expected, inMilliseconds),
    length: (field: F, expected = 'A length as 2 m or 6 ft.') =>
      take(field, metresOfText(textOf(field)), expected, inMetres),
    /** A part of something, as `0.2 %` or `0.002`. */
    share: (field: F) => {
      const [, figure, percent] = /^(\d*\.?\d+)\s*(%?)$/.exec(textOf(field)) ?? []
      const value = figure === undefined ? null : Number(figure) / (percent ? 100 : 1)
      return take(field, value !== null && value < 1 ? value : null, 'A share as 0.2 % or 0.002.')
    },
    picture: (field: F) => {
      const [, width, height] = /^(\d+)\s*[x×*]\s*(\d+)$/i.exec(textOf(field)) ?? []
      return take(
        field,
        width === undefined ? null : ([Number(width), Number(height)] as const),
        'Width and height as 1920 × 1080.',
      )
    },
  }
}
