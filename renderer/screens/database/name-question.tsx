import type { Mapping } from '../../../core/contract/exchange.ts'

type NameQuestionProps = { name: string; almost: string[]; onName: (as: string) => void }

/** Asks whether a name that almost matches is the same paddle. Nothing is merged by itself. */
export function NameQuestion({ name, almost, onName }: NameQuestionProps) {
  return (
    <p className="name-question">
      {almost.map(other => (
        <button key={other} type="button" onClick={() => onName(other)}>
          It is “{other}”
        </button>
      ))}
      <button type="button" onClick={() => onName(name)}>
        “{name}” is another paddle
      </button>
    </p>
  )
}

/** The answers with one more, or another one to the same question. */
export const answered = (names: Mapping['names'], paddle: string, as: string): Mapping['names'] => [
  ...names.filter(one => one.paddle !== paddle),
  { paddle, as },
]
