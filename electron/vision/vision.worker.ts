import { parentPort } from 'node:worker_threads'
import { readTrack } from '../../core/flight/read-track.ts'
import { findTracks } from '../../core/vision/find/find-tracks.ts'
import type { Done, Order } from './jobs.ts'

/** One worker of the pool: looks at pixels, one order after the other. */
parentPort?.on('message', (order: Order) => {
  const answer = (done: Done) => parentPort?.postMessage(done)
  try {
    answer({ id: order.id, gives: doneFor(order) })
  } catch (error) {
    answer({ id: order.id, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) })
  }
})

function doneFor(order: Order) {
  if (order.name === 'find') return findTracks(order.asks.frames, order.asks.before)
  const { track, crops, known, corrected } = order.asks
  return readTrack(track, crops, known, new Map(corrected))
}
