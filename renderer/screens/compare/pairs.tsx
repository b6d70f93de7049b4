import type { ComparedPair, TableRow } from '../../../core/contract/standings.ts'
import { digits } from '../../components/figure-text.ts'
import { DifferenceBar } from './difference-bar.tsx'
import { type DifferenceScale, differenceScaleOf, percentOnDifference } from './difference-scale.ts'
import { differenceWords, pText, verdictOf } from './pair-words.ts'

/** Every pair on one axis with zero: which of the two spins more, and how sure that is. */
export function Pairs({ pairs, rows }: { pairs: ComparedPair[]; rows: TableRow[] }) {
  const names = namesOf(rows)
  const scale = differenceScaleOf(pairs)
  const unrated = rows.filter(row => row.meanRpm === null)
  const single = rows.filter(row => row.hits === 1)
  const twofold = rows.filter(row => row.hits === 2)
  return (
    <section className="compare-pairs" aria-label="Differences">
      <h2>Differences</h2>
      <div className="compare-pair compare-head">
        <span className="quiet">rpm</span>
        <Axis scale={scale} />
        <span className="quiet">How sure</span>
        <span className="quiet">p, Holm</span>
      </div>
      <ul>
        {pairs.map(pair => {
          const { more, less, chance, told } = verdictOf(pair, names)
          return (
            <li key={`${pair.a} ${pair.b}`} className="compare-pair">
              <span className="compare-name">
                <span>
                  {names.get(pair.a)} <span className="quiet">against</span> {names.get(pair.b)}
                </span>
                <span className="figure quiet">{differenceWords(pair)}</span>
              </span>
              <DifferenceBar pair={pair} scale={scale} isTold={told === 'more'} />
              <span className="compare-name">
                {told === 'unknown' ? (
                  <span>One hit each cannot say</span>
                ) : (
                  <>
                    <span>{told === 'more' ? `${more} spins more` : 'They may spin alike'}</span>
                    <span className="quiet">
                      {chance} that {more} spins more than {less}
                    </span>
                  </>
                )}
              </span>
              <span className="figure">{pText(pair.adjustedP)}</span>
            </li>
          )
        })}
      </ul>
      <div className="compare-notes quiet">
        {pairs.length > 1 && (
          <p>
            p is corrected for the {digits(pairs.length)} pairs looked at together, after Holm: the chance
            that any “spins more” here is false stays below 5 %.
          </p>
        )}
        {pairs.some(pair => pair.sharesCamera) && (
          <p>What one camera adds to both of a pair cancels in their difference.</p>
        )}
        {single.length > 0 && <p>With a single hit, the scatter that other paddles show is used.</p>}
        {twofold.length > 0 && <p>{withTwoHits}</p>}
        {unrated.length > 0 && <p>Without a hit in the mean there is nothing to compare.</p>}
      </div>
    </section>
  )
}

const withTwoHits =
  'With two hits the chance that one spins more is cautious: it may lie up to 8 points too near to even.'

/** A paddle's name alone where that tells it apart. */
function namesOf(rows: readonly TableRow[]): Map<string, string> {
  const often = (paddle: string) => rows.filter(row => row.paddle === paddle).length > 1
  return new Map(
    rows.map(({ setUpId, paddle, setUp }) => [setUpId, often(paddle) ? `${paddle}, ${setUp}` : paddle]),
  )
}

function Axis({ scale }: { scale: DifferenceScale }) {
  return (
    <span className="rpm-axis figure" aria-hidden="true">
      {[-scale.reachRpm, 0, scale.reachRpm].map(rpm => (
        <span key={rpm} style={{ left: `${percentOnDifference(scale, rpm)}%` }}>
          {digits(rpm)}
        </span>
      ))}
    </span>
  )
}
