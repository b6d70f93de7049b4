/**
 * Effective degrees of freedom of a combined standard uncertainty √Σu²: (Σu²)² / Σ(u⁴/ν).
 * A part that is known without doubt has ν = Infinity. Infinity when no part has a finite ν.
 *
 * Right for independent parts. Source: JCGM 100:2008, G.4.1, equation (G.2b).
 *
 * @example welchSatterthwaite([{ standardUncertainty: 3, degreesOfFreedom: 4 }]) // 4
 */
export function welchSatterthwaite(
  parts: readonly { standardUncertainty: number; degreesOfFreedom: number }[],
): number {
  let variance = 0
  let spread = 0
  for (const part of parts) {
    variance += part.standardUncertainty ** 2
    spread += part.standardUncertainty ** 4 / part.degreesOfFreedom
  }
  return spread > 0 ? variance ** 2 / spread : Number.POSITIVE_INFINITY
}
