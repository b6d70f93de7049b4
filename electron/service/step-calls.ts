import { type CallContext, calls, type Service, type StepCall } from '../../core/contract/calls.ts'
import { WhorlError } from '../../core/contract/problem.ts'
import { checked } from './checked.ts'

type Own = Pick<Service, StepCall['name']>

/** Of so many steps it is known whether they were done: a page that is left has a handful on their way. */
const mostKnown = 10_000

/**
 * Adds to calls that are steps of a person's work what hands them over from a page that goes away. Of a step that a
 * page sent and hands over as well, whichever comes first is done, and the other waits for it or is dropped.
 */
export function stepCalls<Calls extends Own>(own: Calls): Calls & Pick<Service, 'steps.handOver'> {
  const known = new Map<string, Promise<boolean>>()

  async function once<T>(callId: string | undefined, step: () => Promise<T>): Promise<T> {
    if (callId === undefined) return step()
    // The page that waited for it is gone: it was handed over.
    if (known.has(callId)) throw new WhorlError('cancelled', { what: 'The step' })
    const answer = step()
    known.set(
      callId,
      answer.then(
        () => true,
        () => false,
      ),
    )
    for (const oldest of known.keys()) {
      if (known.size <= mostKnown) break
      known.delete(oldest)
    }
    return answer
  }
  const guarded = <I, T>(handler: (input: I, context: CallContext) => Promise<T>) =>
    ((input, context) => once(context.callId, () => handler(input, context))) as typeof handler

  const steps: Own = {
    'hits.edit': guarded(own['hits.edit']),
    'hits.undo': guarded(own['hits.undo']),
    'hits.redo': guarded(own['hits.redo']),
    'hits.note': guarded(own['hits.note']),
    'study.mark': guarded(own['study.mark']),
    'study.takeBack': guarded(own['study.takeBack']),
  }
  return {
    ...own,
    ...steps,
    'steps.handOver': async ({ steps: handed }, context) => {
      for (const { callId, name, input } of handed) {
        const handler = steps[name] as (input: unknown, context: CallContext) => Promise<unknown>
        const fit = checked<unknown>(calls[name].input, input, name, 'the input')
        // Between this look and the step nothing may come: no wait stands here.
        const isDone = known.get(callId) ?? handler(fit, { ...context, callId })
        if ((await isDone) === false) return null
      }
      return null
    },
  }
}
