import type {
  Difference,
  Repeatability,
  Spread,
  StudyBias,
  StudyDocument,
} from '../../core/contract/study.ts'
import { roundForShow } from '../../core/numerics/round-for-show.ts'

/** `0.94 (0.77–1.21)`: a standard deviation with its interval, to the digits that the interval allows. */
function spreadText({ standardDeviation, low, high }: Spread): string {
  const decimals = Math.max(0, roundForShow(standardDeviation, (high - low) / 2).decimals)
  return `${standardDeviation.toFixed(decimals)} (${low.toFixed(decimals)}–${high.toFixed(decimals)})`
}

function differenceText({ mean, expandedUncertainty }: Difference): string {
  const { value, uncertainty, decimals } = roundForShow(mean, expandedUncertainty)
  const shown = Math.max(0, decimals)
  return `${value.toFixed(shown)} ± ${uncertainty.toFixed(shown)}`
}

/** The figures of a study as a person reads them on the command line. */
export function studyTold({ people, bias, reproducibility, warnings }: StudyDocument): string {
  const lines = [
    ...people.flatMap(personLines),
    ...bias.flatMap(biasLines),
    ...(reproducibility === null
      ? []
      : [
          reproducibility.reproducibilityPx === null
            ? `reproducibility: ${reproducibility.reason}`
            : `reproducibility s_R ${reproducibility.reproducibilityPx.toFixed(2)} px over ${reproducibility.people} people` +
              (reproducibility.betweenPeoplePx === null
                ? ''
                : `, of it ${reproducibility.betweenPeoplePx.toFixed(2)} px between them`),
        ]),
    ...warnings.map(({ message }) => `!  ${message}`),
  ]
  return `${lines.join('\n')}\n`
}

function personLines({ person, pairs, px, bearingDeg, outlying, withoutOutlyingPx, reason }: Repeatability) {
  return [
    `person ${person}, ${pairs} second markings`,
    ...(px === null ? [] : [`  click error (repeatability s_r) ${spreadText(px)} px`]),
    ...(bearingDeg === null ? [] : [`  about the ball’s centre ${spreadText(bearingDeg)}°`]),
    ...(reason === null ? [] : [`  ${reason}`]),
    ...outlying.map(
      ({ frame, mark, apartPx, grade }) =>
        `  ${grade}: ${mark} in frame ${frame}, ${apartPx.toFixed(1)} px apart`,
    ),
    ...(withoutOutlyingPx === null ? [] : [`  without outliers ${withoutOutlyingPx.toFixed(2)} px`]),
  ]
}

function biasLines({ person, against, items, xPx, yPx, bearingDeg, reason }: StudyBias) {
  return [
    `bias of ${person} against ${against}, ${items} marks`,
    ...(xPx === null ? [] : [`  to the right ${differenceText(xPx)} px`]),
    ...(yPx === null ? [] : [`  down ${differenceText(yPx)} px`]),
    ...(bearingDeg === null ? [] : [`  clockwise ${differenceText(bearingDeg)}°`]),
    ...(reason === null ? [] : [`  ${reason}`]),
  ]
}
