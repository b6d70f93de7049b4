import type { Reading, ReadingDocument } from '../../core/contract/reading.ts'
import { bandText, rpmText } from './figures.ts'

/** Readings as a person reads them; `path` heads them where there are several inputs. */
export function told({ readings, warnings }: ReadingDocument, path: string | null): string {
  const lines = [
    ...(path === null ? [] : [path]),
    ...readings.flatMap(linesOf),
    ...warnings.map(({ message }) => `!  ${message}`),
  ]
  return `${lines.join('\n')}\n${path === null ? '' : '\n'}`
}

function linesOf(reading: Reading): string[] {
  const { rpm, sense, band, flag, rotationPerFrameDeg, framesPerRevolution, counted, reasons } = reading
  const figure =
    rpm === null ? 'no figure' : `${rpmText(reading)} rpm, ${flag}${sense === null ? '' : `, ${sense}`}`
  return [
    figure,
    ...(band === null
      ? []
      : [`  ${Math.round(band.level * 100)} % band ${bandText(band)} rpm, ${fitTold(reading)}`]),
    ...(rotationPerFrameDeg === null || framesPerRevolution === null
      ? []
      : [
          `  turns ${rotationPerFrameDeg.toFixed(1)}° a frame, ${framesPerRevolution.toFixed(2)} frames a turn`,
        ]),
    ...(counted === null ? [] : [`  counting alone: ${counted.rpm.toFixed(0)} (${bandText(counted)}) rpm`]),
    ...reasons.map(reason => `  ${reason}`),
  ]
}

const fitTold = ({ method, framesUsed, ceiling }: Reading): string =>
  `${method} fit of ${framesUsed} frames${ceiling ? `, ceiling ${ceiling.rpm.toFixed(0)} (${ceiling.limit})` : ''}`
