import { parentPort, workerData } from 'node:worker_threads'
import { recordOf } from './simulate/record.ts'

/** Works through every `stride`-th seed and sends the records back in bundles. */
const { first, last, stride } = workerData as { first: number; last: number; stride: number }
const bundle = 200
let records = []
for (let seed = first; seed < last; seed += stride) {
  records.push(recordOf(seed))
  if (records.length === bundle) {
    parentPort!.postMessage(records)
    records = []
  }
}
parentPort!.postMessage(records)
