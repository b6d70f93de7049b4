import type { Edit } from '../../../../core/contract/bench.ts'
import type { BenchHit } from '../../../../core/contract/workspace.ts'

/** Where on the bench a step was made: a failed save is told there. */
export type Place = 'stage' | 'time' | 'marks' | 'reading'
export type Step = { place: Place; save: 'undo' | 'redo' | Edit }

type Report = {
  /** The host's word on the hit after a step was saved; steps still waiting are not in it. */
  saved(hit: BenchHit): void
  /** A step was refused: it and all that were waiting behind it are dropped. */
  failed(problem: unknown, step: Step): void
}

/**
 * Sends steps to the host one after the other, in the order they were made. The page does not wait: it
 * shows `waiting` on top of what the host last said. After a failure nothing that was built on the lost
 * step is sent.
 */
export class SaveQueue {
  #waiting: Step[] = []
  #sending = false

  constructor(
    private readonly send: (save: Step['save']) => Promise<BenchHit>,
    private readonly report: Report,
  ) {}

  get waiting(): readonly Step[] {
    return this.#waiting
  }

  push(step: Step): void {
    this.#waiting = [...this.#waiting, step]
    void this.#run()
  }

  async #run(): Promise<void> {
    if (this.#sending) return
    this.#sending = true
    for (let step = this.#waiting[0]; step !== undefined; step = this.#waiting[0]) {
      try {
        const hit = await this.send(step.save)
        this.#waiting = this.#waiting.slice(1)
        this.report.saved(hit)
      } catch (problem) {
        this.#waiting = []
        this.report.failed(problem, step)
      }
    }
    this.#sending = false
  }
}
