import type { ImportPlan, ImportRules } from '../../../core/contract/exchange.ts'

type ImportColumnsProps = {
  plan: ImportPlan
  rules: ImportRules
  onRules: (rules: Partial<ImportRules>) => void
}

/** Which column names the paddle and the set-up, and what every other one was taken for. */
export function ImportColumns({ plan, rules, onRules }: ImportColumnsProps) {
  const columns = plan.tables.find(({ table }) => table === plan.table)?.columns.filter(Boolean) ?? []
  const left = (column: string) => rules.leftOut.includes(column)
  const toggle = (column: string) =>
    onRules({
      leftOut: left(column) ? rules.leftOut.filter(one => one !== column) : [...rules.leftOut, column],
    })
  const numbers = plan.columns.filter(({ kind }) => kind === 'number').length
  return (
    <div className="mapping">
      {plan.tables.length > 1 && (
        <label className="mapping-table">
          Table{' '}
          <select
            value={plan.table}
            onChange={event =>
              onRules({ table: event.target.value, paddleColumn: null, setUpColumn: null, leftOut: [] })
            }
          >
            {plan.tables.map(({ table }) => (
              <option key={table}>{table}</option>
            ))}
          </select>
        </label>
      )}
      <label className="mapping-table">
        Paddle{' '}
        <select value={plan.paddleColumn} onChange={event => onRules({ paddleColumn: event.target.value })}>
          {columns.map(column => (
            <option key={column}>{column}</option>
          ))}
        </select>
      </label>
      <label className="mapping-table">
        Set-up{' '}
        <select
          value={plan.setUpColumn ?? ''}
          onChange={event => onRules({ setUpColumn: event.target.value })}
        >
          <option value="">holds for every set-up</option>
          {columns.map(column => (
            <option key={column}>{column}</option>
          ))}
        </select>
      </label>
      <details>
        <summary>
          Columns{' '}
          <span className="quiet">
            {numbers} of numbers, {plan.columns.length - numbers} of text
          </span>
        </summary>
        <ul className="import-columns">
          {[...plan.columns.map(({ column }) => column), ...rules.leftOut].map(column => {
            const read = plan.columns.find(one => one.column === column)
            return (
              <li key={column}>
                <label>
                  <input type="checkbox" checked={!left(column)} onChange={() => toggle(column)} />{' '}
                  {read?.name ?? column}{' '}
                  <span className="quiet">
                    {read ? [read.unit, read.kind].filter(Boolean).join(', ') : 'left out'}
                  </span>
                </label>
              </li>
            )
          })}
        </ul>
      </details>
    </div>
  )
}
