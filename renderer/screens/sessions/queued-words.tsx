import type { QueueEntry } from '../../../core/contract/queue.ts'
import { Progress } from '../../components/progress.tsx'

/** How far a clip of the queue is, or what came out of it. */
export function QueuedWords({ entry: { state, said, progress } }: { entry: QueueEntry }) {
  if (state === 'reading') return <Progress progress={progress} what="Reading begins" />
  return (
    <p className="quiet" role={state === 'failed' ? 'alert' : undefined}>
      {state === 'waiting' ? 'Waits to be read.' : state === 'elsewhere' ? 'With other machines.' : said}
    </p>
  )
}
