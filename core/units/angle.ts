/** Degrees to radians. */
export const radOfDeg = (deg: number): number => (deg * Math.PI) / 180

/** Radians to degrees. */
export const degOfRad = (rad: number): number => (rad * 180) / Math.PI
