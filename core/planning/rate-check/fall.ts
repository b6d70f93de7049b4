/** Standard gravity, m/s² (3rd CGPM, 1901). On the ground it is within 0.3 % of this. */
const standardGravity = 9.80665

/** Density of air, kg/m³ (ISO 2533, 15 °C at sea level: 1.225; indoors a little less, from memory). */
const airDensity = 1.2

/**
 * The speed at which drag carries a ball's weight, m/s: √(2mg/(ρ·c·A)).
 *
 * @param dragCoefficient about 0.45 for a sphere at these speeds
 */
export function terminalSpeed(
  massKilograms: number,
  diameterMetres: number,
  dragCoefficient: number,
): number {
  const area = (Math.PI * diameterMetres ** 2) / 4
  return Math.sqrt((2 * massKilograms * standardGravity) / (airDensity * dragCoefficient * area))
}

/**
 * How far a body has fallen after a time, metres, with drag that grows as the square of its speed:
 * w²/g·ln(cosh(gt/w + c)/cosh c), tanh c = v₀/w. Without drag (w infinite) v₀t + gt²/2.
 */
export function fallen(t: number, startSpeed: number, terminal: number): number {
  if (!Number.isFinite(terminal)) return startSpeed * t + (standardGravity * t * t) / 2
  const c = Math.atanh(Math.min(Math.max(startSpeed / terminal, -0.99), 0.99))
  const x = (standardGravity * t) / terminal + c
  return (terminal ** 2 / standardGravity) * (logCosh(x) - logCosh(c))
}

const logCosh = (x: number) => Math.abs(x) + Math.log1p(Math.exp(-2 * Math.abs(x))) - Math.LN2
