/** A program that gives nothing for this long is taken to hang. */
export const maxSilentSeconds = 60

export type SilenceWatch = { heard(): void; end(): void }

/** Calls `stop` once a program that is waited for has given nothing for a minute. */
export function watchSilence(stop: () => void): SilenceWatch {
  const timer = setTimeout(stop, maxSilentSeconds * 1000)
  return { heard: () => void timer.refresh(), end: () => clearTimeout(timer) }
}
