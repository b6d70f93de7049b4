import type { ExportLine } from '../../../core/contract/workspace.ts'
import { BandBar } from '../../components/band-bar.tsx'
import { Figure } from '../../components/figure.tsx'
import { halfWidthOf } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { changesOf, changesOfCells } from './changes.ts'
import { NameQuestion } from './name-question.tsx'

export type OnName = (paddle: string, as: string) => void
type PlanLineProps = { line: ExportLine; scale: RpmScale; onName: OnName | null }

/** One paddle in one set-up: what stands there now, what comes, or why nothing does. */
export function PlanLine({ line, scale, onName }: PlanLineProps) {
  const { before, after } = line
  const row = after ?? before
  const old = line.action === 'change' ? before : null
  const changes = old && after ? changesOf(old, after) : changesOfCells(line)
  const was = (word: string) => changes.find(change => change.word === word)?.before
  return (
    <tr>
      <td>{row && <FlagMark flag={row.flag} bare />}</td>
      <td>{line.paddle}</td>
      <td className="quiet">{line.setUp}</td>
      <td className="plan-figure figure">
        <Was text={was('rpm')} />
        {row ? <Figure rpm={row.meanRpm} halfWidthRpm={halfWidthOf(row.band)} unit={false} /> : '–'}
      </td>
      <td className="plan-band">
        <BandBar
          rpm={row?.meanRpm ?? null}
          band={row?.band ?? null}
          beneath={old?.band}
          flag={row?.flag ?? 'too-few-frames'}
          scale={scale}
          lines
        />
      </td>
      <td className="plan-figure figure">
        <Was text={was('hits')} />
        {row?.hits}
      </td>
      <td className="plan-why">
        {changes
          .filter(({ word }) => word !== 'rpm' && word !== 'hits')
          .map(change => (
            <p key={change.word}>
              <span className="quiet">{change.word}</span> <Was text={change.before} />
              {change.after}
            </p>
          ))}
        {line.action === 'held-back' && line.reason}
        {line.almost.length > 0 && onName && (
          <NameQuestion name={line.paddle} almost={line.almost} onName={as => onName(line.paddle, as)} />
        )}
      </td>
    </tr>
  )
}

/** What stood there before, struck out, and the way to what comes. */
function Was({ text }: { text: string | undefined }) {
  return (
    text !== undefined && (
      <span className="plan-was">
        <del>{text}</del>
        <span className="unseen">becomes</span>
        <span aria-hidden="true">→</span>
      </span>
    )
  )
}
