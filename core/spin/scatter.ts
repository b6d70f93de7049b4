import { chiSquareQuantile } from '../numerics/chi-square.ts'
import { assumed } from './assumptions.ts'
import type { Scatter } from './estimate.ts'

/** The normal quantile at 99 %: a stated click error is doubted when chance would do so once in a hundred. */
const doubt = 2.326
/** From here on the residuals speak for themselves. */
const enoughResiduals = 20

/**
 * What one click is worth: from the residuals where there are enough of them, together with the person's
 * own click error where there are few and the two agree, assumed where there is nothing to go by.
 *
 * Pooled as two estimates of one variance, s² = (ν₁s₁² + ν₂s₂²)/(ν₁ + ν₂), ν₁ + ν₂ degrees of freedom
 * (JCGM 100:2008, H.3.6 note and G.4.2 for ν of a stated uncertainty).
 *
 * @param sumOfSquaresPx2 Σ weight·residual² about the fit, in px² of one coordinate
 * @param redundancy its degrees of freedom
 */
export function scatterOf(sumOfSquaresPx2: number, redundancy: number, clickPx: number | null): Scatter {
  const stated = clickPx ?? assumed.clickPx
  const statedDof = clickPx === null ? assumed.clickDegreesOfFreedom : assumed.statedClickDegreesOfFreedom
  const misfit = sumOfSquaresPx2 / stated ** 2
  const agrees =
    redundancy < 1 ||
    (misfit <= chiSquareQuantile(doubt, redundancy) && misfit >= chiSquareQuantile(-doubt, redundancy))
  const residualsAlone = redundancy >= enoughResiduals || !agrees || (clickPx === null && redundancy >= 2)
  if (residualsAlone)
    return {
      px: Math.sqrt(sumOfSquaresPx2 / redundancy),
      from: 'residuals',
      degreesOfFreedom: redundancy,
      redundancy,
    }
  const checked = Math.max(redundancy, 0)
  return {
    px: Math.sqrt((statedDof * stated ** 2 + sumOfSquaresPx2) / (statedDof + checked)),
    from: clickPx === null ? 'assumed' : 'stated',
    degreesOfFreedom: statedDof + checked,
    redundancy: checked,
  }
}
