import type { ListedHit, Paddle } from '../../../core/contract/workspace.ts'
import { BandBar } from '../../components/band-bar.tsx'
import { Figure } from '../../components/figure.tsx'
import { halfWidthOf } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { PaddlePicker } from '../../components/paddle-picker.tsx'
import { ProblemNote } from '../../components/problem-note.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { provenanceWords, standingOf } from '../../components/whose-reading.ts'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { hrefOf } from '../../state/route.ts'

type HitLineProps = { hit: ListedHit; number: number; paddles: Paddle[]; scale: RpmScale }

/** One hit of an open clip: what was read, whose it is, and the way to the bench. */
export function HitLine({ hit, number, paddles, scale }: HitLineProps) {
  const host = useHost()
  const act = useAct()
  const { reading } = hit
  return (
    <li className="hit-line">
      <a href={hrefOf({ screen: 'bench', hitId: hit.hitId })}>Hit {number}</a>
      <span className="figure quiet">
        {hit.window.fromFrame}–{hit.window.toFrame}
      </span>
      {reading ? <FlagMark flag={reading.flag} /> : <span className="quiet">not read yet</span>}
      <span className="hit-line-rpm">
        {reading?.rpm != null && (
          <Figure rpm={reading.rpm} halfWidthRpm={reading.band && halfWidthOf(reading.band)} />
        )}
      </span>
      <span className="hit-line-band">
        <BandBar
          rpm={reading?.rpm ?? null}
          band={reading?.band ?? null}
          beneath={reading?.counted ?? null}
          flag={reading?.flag ?? 'too-few-frames'}
          scale={scale}
          lines
        />
      </span>
      <PaddlePicker
        paddles={paddles}
        setUpId={hit.setUpId}
        label={`Paddle of hit ${number}`}
        onPick={setUpId => act.run(() => host.call('hits.assign', { hitId: hit.hitId, setUpId }))}
      />
      <span
        className={hit.verdict.state === 'accepted' ? '' : 'quiet'}
        title={hit.provenance ? provenanceWords[hit.provenance] : undefined}
      >
        {standingOf(hit)}
      </span>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </li>
  )
}
