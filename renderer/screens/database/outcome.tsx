import type { ExportPlan } from '../../../core/contract/workspace.ts'
import { counted } from '../../components/counted.ts'

type OutcomeProps = { plan: ExportPlan; written: ExportPlan | null; busy: boolean; onWrite: () => void }

/** The plan in one sentence, and the one button; afterwards what was written, and where. */
export function Outcome({ plan, written, busy, onWrite }: OutcomeProps) {
  if (written) {
    const { added, changed, same, held } = amountsOf(written)
    return (
      <div className="outcome" role="status" data-written="true">
        <p className="outcome-words">
          Written: {counted(added, 'row')} added, {counted(changed, 'row')} changed.
        </p>
        <p>
          <span className="figure">{written.target}</span>
        </p>
        <p className="quiet">
          {counted(same, 'row')} stayed as {same === 1 ? 'it was' : 'they were'}, {held} held back.
        </p>
      </div>
    )
  }
  const { added, changed, same, held } = amountsOf(plan)
  const rows = added + changed
  return (
    <div className="outcome">
      <p className="outcome-words">
        {rows === 0
          ? 'Nothing to write.'
          : [added && `${added} to add`, changed && `${changed} to change`].filter(Boolean).join(', ')}
        {rows > 0 && '.'}{' '}
        <span className="quiet">
          {[same && `${same} the same`, held && `${held} held back`].filter(Boolean).join(', ')}
        </span>
      </p>
      {rows > 0 && (
        <button type="button" className="main" disabled={busy} onClick={onWrite}>
          Write {counted(rows, 'row')}
        </button>
      )}
    </div>
  )
}

function amountsOf({ lines }: ExportPlan) {
  const of = (action: string) => lines.filter(line => line.action === action).length
  return { added: of('add'), changed: of('change'), same: of('same'), held: of('held-back') }
}
