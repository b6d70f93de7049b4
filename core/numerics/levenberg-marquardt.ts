import { choleskyFactor, choleskyInverse, choleskySolve } from './cholesky.ts'

/**
 * Fills the residuals at the given parameters and the Jacobian ∂residual/∂parameter, one row a residual.
 * Weights belong into both: divide a residual and its row by its standard uncertainty.
 */
export type ResidualModel = (
  parameters: Float64Array,
  residuals: Float64Array,
  jacobian: Float64Array,
) => void

export type LeastSquares = {
  parameters: Float64Array
  residuals: Float64Array
  /** At the solution, one row a residual. */
  jacobian: Float64Array
  sumOfSquares: number
  /**
   * (JᵀJ)⁻¹ at the solution, p × p: the covariance of the parameters when residuals have unit variance,
   * else times sumOfSquares / (n − p). Null when the data do not determine all parameters.
   */
  covariance: Float64Array | null
  converged: boolean
  iterations: number
}

/**
 * Nonlinear least squares by Levenberg–Marquardt: minimises Σ residual² from a start.
 *
 * Finds the bottom of the basin that the start lies in, so search first. From a start that is nearly there
 * a smaller first `damping` saves steps; where basins lie close together, `isTooFar` refuses steps that would leap out
 * of one, and they are damped more. Steps solve
 * (JᵀJ + λD)·step = −Jᵀr with D the largest diagonal of JᵀJ so far, λ by Nielsen's rule.
 *
 * Sources: Marquardt, J. SIAM 11 (1963) 431; Moré, Lecture Notes in Mathematics 630 (1978) 105 (scaling);
 * Nielsen, IMM-REP-1999-05, Technical University of Denmark (damping).
 */
export function levenbergMarquardt(
  model: ResidualModel,
  start: ArrayLike<number>,
  residualCount: number,
  options: {
    maxIterations?: number
    tolerance?: number
    damping?: number
    isTooFar?: (step: Float64Array) => boolean
  } = {},
): LeastSquares {
  const { maxIterations = 200, tolerance = 1e-12, isTooFar } = options
  const p = start.length
  let parameters = Float64Array.from(start)
  let trial = new Float64Array(p)
  let residuals = new Float64Array(residualCount)
  let trialResiduals = new Float64Array(residualCount)
  let jacobian = new Float64Array(residualCount * p)
  let trialJacobian = new Float64Array(residualCount * p)
  const normal = new Float64Array(p * p)
  const damped = new Float64Array(p * p)
  const gradient = new Float64Array(p)
  const step = new Float64Array(p)
  const scale = new Float64Array(p)

  model(parameters, residuals, jacobian)
  let sumOfSquares = dot(residuals, residuals)
  normalEquations(jacobian, residuals, p, normal, gradient)
  let { damping = 1e-3 } = options
  let growth = 2
  let converged = sumOfSquares === 0
  let iterations = 0
  while (!converged && iterations < maxIterations) {
    iterations++
    for (let i = 0; i < p * p; i++) damped[i] = normal[i]!
    for (let i = 0; i < p; i++) {
      scale[i] = Math.max(scale[i]!, normal[i * p + i]!)
      damped[i * p + i]! += damping * (scale[i]! || 1)
      step[i] = -gradient[i]!
    }
    let gain = -1
    let predicted = 0
    const isSolved = choleskyFactor(damped, p)
    if (isSolved) choleskySolve(damped, p, step)
    if (isSolved && !isTooFar?.(step)) {
      for (let i = 0; i < p; i++) {
        trial[i] = parameters[i]! + step[i]!
        predicted += step[i]! * (damping * (scale[i]! || 1) * step[i]! - gradient[i]!)
      }
      // Nearly every step gains, and then its slopes are wanted.
      model(trial, trialResiduals, trialJacobian)
      gain = (sumOfSquares - dot(trialResiduals, trialResiduals)) / predicted
      // At the bottom rounding decides whether a step gains; a step this small changes nothing that matters.
      converged = smallStep(step, parameters, tolerance) || predicted <= tolerance * tolerance * sumOfSquares
    }
    if (gain > 0) {
      ;[parameters, trial] = [trial, parameters]
      ;[residuals, trialResiduals] = [trialResiduals, residuals]
      ;[jacobian, trialJacobian] = [trialJacobian, jacobian]
      sumOfSquares = dot(residuals, residuals)
      normalEquations(jacobian, residuals, p, normal, gradient)
      damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3)
      growth = 2
    } else if (!converged) {
      damping *= growth
      growth *= 2
      if (!(damping < 1e30)) break
    }
  }
  const covariance = choleskyFactor(normal, p) ? choleskyInverse(normal, p) : null
  return { parameters, residuals, jacobian, sumOfSquares, covariance, converged, iterations }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}

function smallStep(step: Float64Array, parameters: Float64Array, tolerance: number): boolean {
  for (let i = 0; i < step.length; i++) {
    if (Math.abs(step[i]!) > tolerance * (Math.abs(parameters[i]!) + tolerance)) return false
  }
  return true
}

/** normal = JᵀJ, its lower triangle, which is all that is factored, and gradient = Jᵀr. */
function normalEquations(
  jacobian: Float64Array,
  residuals: Float64Array,
  p: number,
  normal: Float64Array,
  gradient: Float64Array,
): void {
  normal.fill(0)
  gradient.fill(0)
  for (let k = 0; k < residuals.length; k++) {
    const row = k * p
    for (let i = 0; i < p; i++) {
      const slope = jacobian[row + i]!
      // Most rows know only some of the unknowns.
      if (slope === 0) continue
      gradient[i]! += slope * residuals[k]!
      for (let j = 0; j <= i; j++) normal[i * p + j]! += slope * jacobian[row + j]!
    }
  }
}
