/** The rate at which a camera really filmed, with its relative standard uncertainty; or why it cannot be said. */
export type RateFound =
  | { measured: true; captureFps: number; relativeUncertainty: number; remarks: string[] }
  | { measured: false; reason: string; tip: string }

export const notFound = (reason: string, tip: string): RateFound => ({ measured: false, reason, tip })
