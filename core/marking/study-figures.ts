import type { StudyFigures, StudyRemark } from '../contract/study.ts'
import { biasOf } from './study-bias.ts'
import { fewestPairs, repeatabilityOf } from './study-repeatability.ts'
import { reproducibilityOf } from './study-reproducibility.ts'

/**
 * What re-marking says: each person's own repeatability, the bias of every later person against each
 * earlier one, and the scatter over people, in the words of ISO 5725. Markings are in px of the picture
 * (x right, y down) and degrees clockwise. What too few markings cannot say is null with a reason.
 */
export function studyFigures(remarks: readonly StudyRemark[]): StudyFigures {
  const people = [...new Set(remarks.map(remark => remark.person))]
  const repeatability = people.map(person => repeatabilityOf(person, remarks))
  // Somebody who has only begun must not hide what the others have in common.
  const far = repeatability.filter(({ items }) => items >= fewestPairs).map(({ person }) => person)
  return {
    people: repeatability,
    bias: people.flatMap((person, i) => people.slice(0, i).map(against => biasOf(person, against, remarks))),
    reproducibility: people.length > 1 ? reproducibilityOf(far.length > 1 ? far : people, remarks) : null,
  }
}
