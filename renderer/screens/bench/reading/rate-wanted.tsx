import { CaptureRate } from '../../sessions/capture-rate.tsx'
import { useBench } from '../state/use-bench.ts'

/** Without a capture rate no angle has a rate: asked for here, where the figure would stand. */
export function RateWanted() {
  const clip = useBench(state => state.clip)
  const cameraFps = useBench(state => state.session.camera.captureFps)
  const playback = clip.probe?.playbackFps
  return (
    <div className="headline rate-wanted">
      <CaptureRate clip={clip} cameraFps={cameraFps} />
      <p className="quiet">
        The file does not say.
        {playback && ` It plays at ${Math.round(playback * 100) / 100}, which for slow motion is less.`}
      </p>
    </div>
  )
}
