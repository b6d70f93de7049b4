import type { Outline } from '../../core/contract/marks.ts'
import type { Known } from '../../core/flight/read-flight.ts'
import type { FoundFlight } from '../../core/flight/read-track.ts'
import type { FoundTracks, SeenBefore, SmallFrame } from '../../core/vision/find/find-tracks.ts'
import type { CropFrame } from '../../core/vision/find/outline-flight.ts'
import type { Track } from '../../core/vision/find/track.ts'

/** What a worker is asked for; pixels are handed over, not copied. */
export type Jobs = {
  find: { asks: { frames: SmallFrame[]; before?: SeenBefore }; gives: FoundTracks }
  read: {
    asks: { track: Track; crops: CropFrame[]; known: Known; corrected: [frame: number, outline: Outline][] }
    gives: FoundFlight | null
  }
}
export type JobName = keyof Jobs
export type Order = { [N in JobName]: { id: number; name: N; asks: Jobs[N]['asks'] } }[JobName]
export type Done = { id: number } & ({ gives: Jobs[JobName]['gives'] } | { failed: string })
