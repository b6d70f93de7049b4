import type { PaddleSetUp, SetUpRank } from '../../../core/contract/standings.ts'
import { counted } from '../../components/counted.ts'
import { Fact } from '../../components/fact.tsx'
import { digits, halfWidthOf, rpmWithHalfWidth } from '../../components/figure-text.ts'
import { FlagMark } from '../../components/flag-mark.tsx'
import { HitDots } from '../../components/hit-dots.tsx'
import { PercentileBar } from '../../components/percentile-bar.tsx'
import { chanceWords, ordinal, rankBandWords } from '../../components/place-words.ts'
import { RpmAxis } from '../../components/rpm-axis.tsx'
import type { RpmScale } from '../../components/rpm-scale.ts'
import { hrefOf } from '../../state/route.ts'
import { MoreHits } from './more-hits.tsx'

type SetUpCardProps = { setUp: PaddleSetUp; scale: RpmScale; rank: SetUpRank | null }

/** A set-up's figure: the mean, its place, and what its band is made of. */
export function SetUpCard({ setUp: { name, notes, row, corrected }, scale, rank }: SetUpCardProps) {
  if (row === null || row.hits + row.heldBack === 0)
    return (
      <section className="set-up-card" aria-label={name}>
        <h2>{name}</h2>
        <p className="quiet">No hits yet. Give it hits on the readings.</p>
      </section>
    )
  const { meanRpm, band, next } = row
  return (
    <section className="set-up-card" aria-label={name}>
      <h2>
        {name} <FlagMark flag={row.flag} />
      </h2>
      {notes && <p className="quiet">{notes}</p>}
      <p className="set-up-card-rpm figure">
        {meanRpm === null ? (
          <span className="quiet">no figure</span>
        ) : (
          <>
            {rpmWithHalfWidth(meanRpm, band && halfWidthOf(band))}
            <span className="unit">{'\u00a0rpm'}</span>
          </>
        )}
      </p>
      <HitDots
        dots={row.dots}
        leftOut={row.leftOut}
        meanRpm={meanRpm}
        band={band}
        scale={scale}
        heightPx={64}
      />
      <RpmAxis scale={scale} />
      <dl>
        <Fact word="Hits">
          {digits(row.hits)} in the mean{row.heldBack > 0 && `, ${row.heldBack} left out`}
        </Fact>
        {row.rank !== null && (
          <Fact word="Place">
            {ordinal(row.rank)}
            {rank && <span className="quiet">, may truly be {rankBandWords(rank)}</span>}
          </Fact>
        )}
        {row.percentile !== null && (
          <Fact word="Percentile">
            <PercentileBar percentile={row.percentile}>
              <span className="figure">{digits(row.percentile)}</span>
            </PercentileBar>
          </Fact>
        )}
        {row.tier !== null && (
          <Fact word="Tier">
            {row.tier}
            {next && (
              <span className="quiet">
                , {chanceWords(next.probability)} for {next.tier}
              </span>
            )}
          </Fact>
        )}
        {row.betweenHitSdRpm !== null && (
          <Fact word="From hit to hit">standard deviation {digits(row.betweenHitSdRpm)} rpm</Fact>
        )}
        {row.ownUncertaintyRpm !== null && (
          <Fact word="The band">
            from its hits {digits(row.ownUncertaintyRpm, 1)} rpm, from its camera{' '}
            {digits(row.sharedUncertaintyRpm ?? 0, 1)} rpm{' '}
            <span className="quiet">(standard uncertainties; more hits narrow the first alone)</span>
          </Fact>
        )}
        {corrected?.band && (
          <Fact word="Without drift">
            {rpmWithHalfWidth(corrected.meanRpm, halfWidthOf(corrected.band))} rpm{' '}
            <span className="quiet">(beside the figure, never instead of it)</span>
          </Fact>
        )}
      </dl>
      {meanRpm !== null && (
        <p>
          <a href={hrefOf({ screen: 'publish', of: 'paddle', ids: [row.setUpId] })}>Publish the figure</a>
        </p>
      )}
      {meanRpm !== null && <MoreHits row={row} />}
      {row.hits === 1 && (
        <p className="quiet">
          {counted(1, 'hit')}: the band is that hit’s own. How the next one would differ it cannot say.
        </p>
      )}
    </section>
  )
}
