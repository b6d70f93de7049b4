import { type TierRules, tierRulesSchema } from '../../../core/contract/rating-rules.ts'

/** A tier as it is being written. */
export type TierLine = { id: number; name: string; from: string }

export const tierLinesOf = (rules: TierRules): TierLine[] =>
  (rules.by === 'rpm'
    ? rules.tiers.map(({ name, fromRpm }) => ({ name, from: fromRpm }))
    : rules.tiers.map(({ name, fromPercentile }) => ({ name, from: fromPercentile }))
  ).map(({ name, from }, id) => ({ id, name, from: String(from) }))

/** What the lines say, or null while one of them is no tier yet. */
export function tierRulesOf(by: TierRules['by'], lines: readonly TierLine[]): TierRules | null {
  if (lines.some(({ from }) => from.trim() === '')) return null
  const figures = lines.map(({ name, from }) => ({ name, from: Number(from.replace(',', '.')) }))
  const rules =
    by === 'rpm'
      ? { by, tiers: figures.map(({ name, from }) => ({ name, fromRpm: from })) }
      : { by, tiers: figures.map(({ name, from }) => ({ name, fromPercentile: from })) }
  return tierRulesSchema.safeParse(rules).data ?? null
}

type TierLinesProps = { lines: TierLine[]; by: TierRules['by']; onLines: (lines: TierLine[]) => void }

/** Tiers, a line each: a name, and where it begins. */
export function TierLines({ lines, by, onLines }: TierLinesProps) {
  const change = (id: number, part: Partial<TierLine>) =>
    onLines(lines.map(line => (line.id === id ? { ...line, ...part } : line)))
  const unit = by === 'rpm' ? 'rpm' : '%'
  return (
    <ol className="tier-lines">
      {lines.map(({ id, name, from }, i) => (
        <li key={id}>
          <input
            aria-label={`Name of tier ${i + 1}`}
            value={name}
            maxLength={60}
            onChange={event => change(id, { name: event.target.value })}
          />
          <span className="quiet">from</span>
          <input
            aria-label={`Where tier ${i + 1} begins, ${unit}`}
            inputMode="decimal"
            value={from}
            onChange={event => change(id, { from: event.target.value })}
          />
          <span className="unit">{unit}</span>
          <button
            type="button"
            className="plain"
            disabled={lines.length === 1}
            aria-label={`Remove tier ${i + 1}`}
            onClick={() => onLines(lines.filter(line => line.id !== id))}
          >
            Remove
          </button>
        </li>
      ))}
      <li>
        <button
          type="button"
          className="plain"
          disabled={lines.length >= 20}
          onClick={() =>
            onLines([...lines, { id: Math.max(0, ...lines.map(line => line.id)) + 1, name: '', from: '' }])
          }
        >
          Another tier
        </button>
      </li>
    </ol>
  )
}
