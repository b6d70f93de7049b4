import { type FormEvent, useState } from 'react'
import {
  percentileDefinitionSchema,
  type RatingRules,
  type TierRules,
} from '../../../core/contract/rating-rules.ts'
import type { PaddleTable } from '../../../core/contract/standings.ts'
import { definitionWords } from '../../components/place-words.ts'
import { ProblemNote } from '../../components/problem-note.tsx'
import { useHost } from '../../host/host.ts'
import { useAct } from '../../state/answers.ts'
import { TierLines, tierLinesOf, tierRulesOf } from './tier-lines.tsx'

/** How the workspace places its paddles: what a percentile counts, where tiers begin, which paddle is the reference. */
export function RulesForm({ table, onDone }: { table: PaddleTable; onDone: () => void }) {
  const host = useHost()
  const act = useAct()
  const { rules } = table
  const [percentileDefinition, setDefinition] = useState(rules.percentileDefinition)
  const [by, setBy] = useState<TierRules['by']>(rules.tiers.by)
  const [lines, setLines] = useState(() => tierLinesOf(rules.tiers))
  const [referenceSetUpId, setReference] = useState(rules.referenceSetUpId)
  const tiers = tierRulesOf(by, lines)
  const keep = async (event: FormEvent) => {
    event.preventDefault()
    if (tiers === null) return
    const kept: RatingRules = { percentileDefinition, tiers, referenceSetUpId }
    if (await act.run(() => host.call('ratings.setRules', { rules: kept }))) onDone()
  }
  return (
    <form className="rules-form" onSubmit={keep} aria-label="Percentiles, tiers, reference">
      <fieldset>
        <legend>A percentile is</legend>
        {percentileDefinitionSchema.options.map(definition => (
          <label key={definition}>
            <input
              type="radio"
              name="definition"
              checked={percentileDefinition === definition}
              onChange={() => setDefinition(definition)}
            />
            {definitionWords[definition]}
          </label>
        ))}
      </fieldset>
      <fieldset>
        <legend>Tiers begin at</legend>
        <label>
          <input type="radio" name="by" checked={by === 'percentile'} onChange={() => setBy('percentile')} />a
          percentile of all paddles
        </label>
        <label>
          <input type="radio" name="by" checked={by === 'rpm'} onChange={() => setBy('rpm')} />a rate
        </label>
        <TierLines lines={lines} by={by} onLines={setLines} />
      </fieldset>
      <fieldset>
        <legend>Reference paddle</legend>
        <p className="quiet">Hit in every session, it tells a drift of the day from a paddle.</p>
        <select
          aria-label="Reference paddle"
          value={referenceSetUpId ?? ''}
          onChange={event => setReference(event.target.value || null)}
        >
          <option value="">none</option>
          {table.rows
            .filter(row => row.sessions > 1 || row.setUpId === referenceSetUpId)
            .map(row => (
              <option key={row.setUpId} value={row.setUpId}>
                {row.paddle}, {row.setUp}
              </option>
            ))}
        </select>
      </fieldset>
      <p className="rules-form-steps">
        <button type="submit" className="main" disabled={act.busy || tiers === null}>
          Keep
        </button>
        <button type="button" className="plain" onClick={onDone}>
          Cancel
        </button>
        {tiers === null && <span className="quiet">Each tier takes a name and a figure of 0 or more.</span>}
      </p>
      {act.problem && <ProblemNote problem={act.problem} onForget={act.forget} />}
    </form>
  )
}
