import type { UsedCamera } from '../../../core/contract/workspace.ts'
import { textOfSeconds } from '../../../core/units/duration.ts'
import { textOfMetres } from '../../../core/units/length.ts'
import { Fact } from '../../components/fact.tsx'
import { inMilliseconds } from '../../components/typed.ts'

/** What the reading took camera and ball to be when it was made; a camera that changed since changes none of it. */
export function UsedValues({ used }: { used: UsedCamera }) {
  const { captureFps, relativeUncertainty, exposureSeconds, readoutSeconds, focalLengthPx } = used
  const percent =
    relativeUncertainty === null ? '' : ` ± ${Number((100 * relativeUncertainty).toPrecision(2))} %`
  return (
    <section>
      <h3>Made with</h3>
      <dl className="evidence">
        {used.profile && <Fact word="Camera">{used.profile}</Fact>}
        {captureFps !== null && (
          <Fact word="Capture rate">
            {Number(captureFps.toFixed(3))} fps{percent}
          </Fact>
        )}
        {exposureSeconds !== null && <Fact word="Exposure">{textOfSeconds(exposureSeconds)}</Fact>}
        {readoutSeconds !== null && (
          <Fact word="Readout">
            {readoutSeconds === 0 ? 'global shutter' : inMilliseconds(readoutSeconds)}
          </Fact>
        )}
        {focalLengthPx !== null && <Fact word="Focal length">{Math.round(focalLengthPx)} px</Fact>}
        <Fact word="Ball">{textOfMetres(used.ballDiameterMetres)} across</Fact>
      </dl>
    </section>
  )
}
