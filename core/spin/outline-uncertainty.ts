/**
 * Standard uncertainties of an outline that was placed by hand: three clicks on the rim, 120° apart. Least
 * squares through them gives its centre σ√(2/3) a coordinate and its radius σ/√3.
 */
export const outlineUncertainty = (clickPx: number) => ({
  centrePx: clickPx * Math.sqrt(2 / 3),
  radiusPx: clickPx / Math.sqrt(3),
})
