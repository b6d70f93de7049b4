/**
 * What a click error does to a place on the ball: standard uncertainty of its direction, radians, along
 * the circle around the ball's centre and towards the rim, for a click error in px (one coordinate).
 *
 * Towards the rim a pixel covers more of the ball by 1/cos θ, θ the angle from the line of sight; so does
 * the part that a straight line misses at the very rim, where half the arc behind a click is the error:
 * the pixel's arc is taken over one standard deviation inwards, never at a slope that runs to infinity.
 */
export function placeUncertainty(
  offsetRadii: number,
  clickRadii: number,
): { aroundRad: number; towardsRimRad: number } {
  const rho = Math.min(Math.max(offsetRadii, 0), 1)
  const inwards = Math.max(rho - clickRadii, 0)
  const slope = Math.asin(rho) - Math.asin(inwards)
  return { aroundRad: clickRadii, towardsRimRad: Math.max(slope, clickRadii) }
}
