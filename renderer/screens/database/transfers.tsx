import type { Transfer } from '../../../core/contract/exchange.ts'
import { dayInWords } from '../../components/day-words.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { Progress } from '../../components/progress.tsx'
import { useHost } from '../../host/host.ts'
import { useAct, useAnswer } from '../../state/answers.ts'

/** Exports and imports, the latest first; the last of a place can be taken back. */
export function Transfers() {
  const host = useHost()
  const list = useAnswer('transfers.list', {}, ['transfers'])
  const undoing = useAct()
  const undo = ({ kind, place, id }: Transfer) =>
    undoing.run(options =>
      kind === 'export'
        ? host.call('export.undo', { target: place }, options)
        : host.call('import.undo', { transferId: id }, options),
    )
  return (
    <>
      {list.problem && <ProblemNote problem={list.problem} />}
      {undoing.problem && <ProblemNote problem={undoing.problem} onForget={undoing.forget} />}
      {undoing.busy && <Progress progress={null} what="Putting back" onCancel={undoing.cancel} />}
      {list.value?.length === 0 && (
        <p className="database-empty">
          Nothing went out or came in yet. What does will stand here, with the way back.
        </p>
      )}
      {list.value && list.value.length > 0 && (
        <table className="plan transfers">
          <thead>
            <tr>
              <th scope="col">When</th>
              <th scope="col">What</th>
              <th scope="col">Where</th>
              <th scope="col">
                <span className="unseen">Take back</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {list.value.map(one => (
              <tr key={one.id} data-undone={one.undoneAt !== null}>
                <td className="figure">
                  {dayInWords(one.doneAt.slice(0, 10))} {one.doneAt.slice(11, 16)}
                </td>
                <td>
                  {one.kind === 'export' ? 'Written' : 'Brought in'}: {one.said}
                </td>
                <td className="figure transfers-place">{one.place}</td>
                <td>
                  {one.undoneAt !== null && <span className="quiet">taken back</span>}
                  {one.canUndo && (
                    <button type="button" disabled={undoing.busy} onClick={() => undo(one)}>
                      Take back
                    </button>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  )
}
