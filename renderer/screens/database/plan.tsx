import type { ExportLine, ExportPlan } from '../../../core/contract/workspace.ts'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import { rpmScaleOf } from '../../components/rpm-scale.ts'
import { type OnName, PlanLine } from './plan-line.tsx'

const groups: { action: ExportLine['action']; word: string; writtenWord: string }[] = [
  { action: 'add', word: 'To add', writtenWord: 'Added' },
  { action: 'change', word: 'To change', writtenWord: 'Changed' },
  { action: 'held-back', word: 'Held back', writtenWord: 'Held back' },
  { action: 'same', word: 'The same', writtenWord: 'The same' },
]

/** What an export does, line by line, on one rpm scale. */
export function Plan({ plan, onName }: { plan: ExportPlan; onName: OnName }) {
  const scale = rpmScaleOf(
    plan.lines.flatMap(({ before, after }) => [before?.band ?? [], after?.band ?? []].flat()),
  )
  if (plan.lines.length === 0) {
    return (
      <p className="database-empty">
        No paddle has an accepted hit yet. Accept readings, and give each its paddle.
      </p>
    )
  }
  return (
    <table className="plan">
      <thead>
        <tr>
          <th scope="col" className="plan-flag">
            <span className="unseen">Flag</span>
          </th>
          <th scope="col">Paddle</th>
          <th scope="col">Set-up</th>
          <th scope="col" className="plan-figure">
            rpm
          </th>
          <th scope="col" className="plan-band">
            <span className="unseen">Band</span>
            <RpmAxis scale={scale} />
          </th>
          <th scope="col" className="plan-figure">
            Hits
          </th>
          <th scope="col">
            <span className="unseen">What changes, or why not</span>
          </th>
        </tr>
      </thead>
      {groups.map(({ action, word, writtenWord }) => {
        const lines = plan.lines.filter(line => line.action === action)
        if (lines.length === 0) return null
        return (
          <tbody key={action} data-action={action}>
            <tr>
              <th colSpan={7} scope="rowgroup">
                {plan.written ? writtenWord : word} <span className="figure quiet">{lines.length}</span>
              </th>
            </tr>
            {lines.map(line => (
              <PlanLine
                key={`${line.paddle}\n${line.setUp}\n${line.reason}`}
                line={line}
                scale={scale}
                onName={plan.written ? null : onName}
              />
            ))}
          </tbody>
        )
      })}
    </table>
  )
}
