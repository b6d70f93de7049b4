import type { ImportLine, ImportPlan } from '../../../core/contract/exchange.ts'
import { counted } from '../../components/counted.ts'
import { cellText } from './cell-text.ts'
import { NameQuestion } from './name-question.tsx'

type ImportLinesProps = {
  plan: ImportPlan
  busy: boolean
  onBring: () => void
  onName: (paddle: string, as: string) => void
}

const groups: { action: ImportLine['action']; word: string; doneWord: string }[] = [
  { action: 'held-back', word: 'To be told apart', doneWord: 'Left out' },
  { action: 'change', word: 'To change', doneWord: 'Changed' },
  { action: 'add', word: 'To add', doneWord: 'Added' },
]
/** A page of a long table: what is alike needs no looking through. */
const shownMost = 200

/** What a table brings, in one sentence and line by line, and the cells that were not understood. */
export function ImportLines({ plan, busy, onBring, onName }: ImportLinesProps) {
  const of = (action: ImportLine['action']) => plan.lines.filter(line => line.action === action)
  const coming = of('add').length + of('change').length
  const { unclear, written } = plan
  return (
    <>
      <div className="outcome" role={written ? 'status' : undefined}>
        <p className="outcome-words">
          {written
            ? `Brought in: ${counted(of('add').length, 'row')} added, ${counted(of('change').length, 'row')} changed.`
            : coming === 0
              ? 'Nothing new in it.'
              : `${of('add').length} to add, ${of('change').length} to change.`}{' '}
          <span className="quiet">
            {of('same').length} the same, {counted(unclear.length, 'cell')} not understood
          </span>
        </p>
        {!written && coming > 0 && (
          <button type="button" className="main" disabled={busy} onClick={onBring}>
            Bring in {counted(coming, 'row')}
          </button>
        )}
      </div>
      {plan.notes.map(note => (
        <p key={note} className="quiet">
          {note}
        </p>
      ))}
      <table className="plan">
        <caption className="unseen">What the table brings</caption>
        {unclear.length > 0 && (
          <tbody>
            <Group word="Not understood, left out" count={unclear.length} />
            {unclear.slice(0, shownMost).map(({ row, column, text, what }) => (
              <tr key={`${row} ${column}`}>
                <td className="figure quiet">{row}</td>
                <td>{column}</td>
                <td className="figure">{text || '(empty)'}</td>
                <td>{what}</td>
              </tr>
            ))}
          </tbody>
        )}
        {groups.map(({ action, word, doneWord }) => {
          const lines = of(action)
          if (lines.length === 0) return null
          return (
            <tbody key={action}>
              <Group word={written ? doneWord : word} count={lines.length} />
              {lines.slice(0, shownMost).map(line => (
                <Line key={line.row} line={line} onName={written ? null : onName} />
              ))}
            </tbody>
          )
        })}
      </table>
    </>
  )
}

function Group({ word, count }: { word: string; count: number }) {
  return (
    <tr>
      <th colSpan={4} scope="rowgroup">
        {word}{' '}
        <span className="figure quiet">{count > shownMost ? `${count}, the first ${shownMost}` : count}</span>
      </th>
    </tr>
  )
}

function Line({ line, onName }: { line: ImportLine; onName: ((paddle: string, as: string) => void) | null }) {
  const some = line.changes.slice(0, 4)
  return (
    <tr>
      <td className="figure quiet">{line.row}</td>
      <td>{line.paddle}</td>
      <td className="quiet">{line.setUp}</td>
      <td>
        {line.reason}
        {line.almost.length > 0 && onName && (
          <NameQuestion name={line.paddle} almost={line.almost} onName={as => onName(line.paddle, as)} />
        )}
        {some.map(({ column, before, after }) => (
          <span key={column} className="import-value">
            <span className="quiet">{column}</span>{' '}
            {before !== null && (
              <>
                <del className="quiet">{cellText(before)}</del> →{' '}
              </>
            )}
            <span className="figure">{cellText(after)}</span>
          </span>
        ))}
        {line.changes.length > some.length && (
          <span className="quiet">and {line.changes.length - some.length} more</span>
        )}
      </td>
    </tr>
  )
}
