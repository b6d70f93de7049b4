import type { CallAnswer, Host, StepCall } from '../../core/contract/calls.ts'
import { onItsWay } from './on-its-way.ts'

type Answered = CallAnswer<StepCall['name']>
type Report<Step, Said> = {
  /** The host's word after a step was saved; steps still waiting are not in it. */
  saved(said: Said): void
  /** A step was refused: it and all that were waiting behind it are dropped. */
  failed(problem: unknown, step: Step): void
}

/**
 * Sends steps to the host one after the other, in the order they were made. The page does not wait: it
 * shows `waiting` on top of what the host last said. After a failure nothing that was built on the lost
 * step is sent. Whoever closes the page finds what waits in `onItsWay`.
 */
export class SaveQueue<Step, Said extends Answered> {
  #waiting: readonly { step: Step; call: StepCall }[] = []
  #sending: Promise<void> | null = null

  constructor(
    private readonly host: Host,
    private readonly callOf: (step: Step) => Omit<StepCall, 'callId'>,
    private readonly report: Report<Step, Said>,
  ) {}

  get waiting(): readonly Step[] {
    return this.#waiting.map(({ step }) => step)
  }

  push(step: Step): void {
    const call = { ...this.callOf(step), callId: crypto.randomUUID() }
    this.#waiting = [...this.#waiting, { step, call }]
    this.#sending ??= this.#send()
  }

  /** Resolves once every step was saved or dropped. */
  async written(): Promise<void> {
    await this.#sending
  }

  async #send(): Promise<void> {
    const leave = onItsWay.enter({
      calls: () => this.#waiting.map(({ call }) => call),
      written: () => this.written(),
    })
    for (let next = this.#waiting[0]; next !== undefined; next = this.#waiting[0]) {
      const { name, input, callId } = next.call
      try {
        const said = await this.host.call(name, input as never, { callId })
        this.#waiting = this.#waiting.slice(1)
        this.report.saved(said as Said)
      } catch (problem) {
        this.#waiting = []
        this.report.failed(problem, next.step)
      }
    }
    leave()
    this.#sending = null
  }
}
