import { type Field, fieldNames, type Mapping } from '../../core/contract/exchange.ts'

/** Headers that people give to a field, plain (letters and digits); the first that is there is taken. */
const usual: Record<Field, RegExp[]> = {
  paddle: [/^paddle(name|model)?$/, /^(model|name|product)(name)?$/, /paddle/, /^racket|^bat$/],
  set_up: [/^setup$/, /setup|configuration|^config$|^build$/],
  mean_rpm: [
    /^mean(spin)?rpm$/,
    /^spin(rate)?(mean|avg|average)?(rpm)?$/,
    /^(mean|avg|average)spin/,
    /^rpm$/,
    /spin.*rpm|rpm.*spin/,
  ],
  band_low_rpm: [/^bandlowrpm$/, /^(spin|rpm)?(band)?(low|lower|min)(er)?(spin|rpm)?$/],
  band_high_rpm: [/^bandhighrpm$/, /^(spin|rpm)?(band)?(high|higher|upper|max)(spin|rpm)?$/],
  band_level: [/^bandlevel$/, /^(confidence|coverage)(level)?$/],
  hits: [/^hits?$/, /^(number|no|n)(of)?(hits|shots|swings)$/, /^(spin)?hits/],
  flag: [/^(spin)?flag$/],
  ceiling_limit: [/^ceilinglimit$/, /^(ceiling|limit)$/],
  settled_reason: [/^settledreason$/, /^reason$/],
  capture_fps: [/^capturefps$/, /^(camera)?(fps|framerate)$/],
  method_version: [/^methodversion$/, /^method$/],
  date: [/^(spin)?(date|day)$/, /^(test|measured)(date|on)?$/],
  evidence: [/^evidence/],
}

const plainOf = (header: string): string =>
  header
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '')

/**
 * What the headers of a table suggest. Each header serves one field at most. Null where none of them names
 * a paddle.
 */
export function guessMapping(table: string, headers: readonly string[]): Mapping | null {
  const free = headers.filter(header => header !== '')
  const columns: Mapping['columns'] = {}
  for (const field of fieldNames) {
    const named = usual[field].flatMap(way => free.filter(header => way.test(plainOf(header))))[0]
    if (named === undefined) continue
    columns[field] = named
    free.splice(free.indexOf(named), 1)
  }
  return columns.paddle === undefined ? null : { table, columns, names: [] }
}
