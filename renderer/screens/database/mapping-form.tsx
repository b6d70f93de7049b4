import { type Field, fieldNames, type Mapping, type PlaceSeen } from '../../../core/contract/exchange.ts'
import { fieldWords } from './field-words.ts'

type MappingFormProps = {
  seen: PlaceSeen
  mapping: Mapping | null
  onMapping: (mapping: Mapping | null) => void
}

/** Which table is written, and which column takes what. Guessed from the headers, changed here. */
export function MappingForm({ seen, mapping, onMapping }: MappingFormProps) {
  const own = 'whorl_spin'
  const tables = seen.tables.filter(({ table }) => table !== own)
  if (tables.length === 0) return null
  const there = tables.find(({ table }) => table === mapping?.table)
  const mayBeOwn = seen.kind === 'sqlite' || seen.kind === 'postgres' || mapping === null
  const choose = (table: string) => {
    const chosen = tables.find(one => one.table === table)
    onMapping(chosen ? (chosen.guess ?? { table, columns: {}, names: [] }) : null)
  }
  const put = (field: Field, column: string) => {
    if (!mapping) return
    const { [field]: _, ...columns } = mapping.columns
    onMapping({ ...mapping, columns: column === '' ? columns : { ...columns, [field]: column } })
  }
  const count = mapping ? Object.keys(mapping.columns).length : 0
  return (
    <div className="mapping">
      <label className="mapping-table">
        Into{' '}
        <select value={there ? there.table : own} onChange={event => choose(event.target.value)}>
          {mayBeOwn && <option value={own}>a table of Whorl’s own, {own}</option>}
          {tables.map(({ table }) => (
            <option key={table} value={table}>
              {table === '' ? 'the sheet’s own columns' : table}
            </option>
          ))}
        </select>
      </label>
      {mapping && there && (
        <details open={mapping.columns.mean_rpm === undefined || mapping.columns.paddle === undefined}>
          <summary>
            Columns{' '}
            <span className="quiet">
              {count} of {fieldNames.length} fields have one
            </span>
          </summary>
          <div className="mapping-fields">
            {fieldNames.map(field => (
              <label key={field}>
                <span className="quiet">{fieldWords[field]}</span>
                <select
                  value={mapping.columns[field] ?? ''}
                  onChange={event => put(field, event.target.value)}
                >
                  <option value="">not written</option>
                  {there.columns.filter(Boolean).map(column => (
                    <option key={column}>{column}</option>
                  ))}
                </select>
              </label>
            ))}
          </div>
        </details>
      )}
    </div>
  )
}
