import { exitCodes } from './failure.ts'
import { run } from './run.ts'
import { worldOf } from './world.ts'

/**
 * Runs the command line of this process. The first Ctrl-C (or a polite end from outside) cancels and lets
 * the command clean up, the second ends at once.
 */
export async function main(words: string[]): Promise<void> {
  const interrupted = new AbortController()
  const interrupt = () => {
    if (interrupted.signal.aborted) process.exit(exitCodes.interrupted)
    interrupted.abort()
  }
  process.on('SIGINT', interrupt).on('SIGTERM', interrupt)
  process.stdout.on('error', error => {
    if ((error as NodeJS.ErrnoException).code === 'EPIPE') process.exit(exitCodes.fine)
    throw error
  })
  process.exitCode = await run(words, worldOf(process, interrupted.signal))
  process.off('SIGINT', interrupt).off('SIGTERM', interrupt)
}
