import type { StepCall } from '../../core/contract/calls.ts'

/** Steps of one piece of work, in their order: the first of them may have reached the host already. */
type Waiting = { calls(): readonly StepCall[]; written(): Promise<void> }

const pieces = new Set<Waiting>()

/** What a person did that the host has not yet said to be saved, whatever screen it was done on. */
export const onItsWay = {
  /** Answers the way to leave again, once nothing waits. */
  enter(piece: Waiting): () => void {
    pieces.add(piece)
    return () => void pieces.delete(piece)
  },
  calls: (): (readonly StepCall[])[] => [...pieces].map(piece => piece.calls()),
  async written(): Promise<void> {
    await Promise.all([...pieces].map(piece => piece.written()))
  },
}
