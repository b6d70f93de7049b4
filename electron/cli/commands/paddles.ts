import type { PercentileDefinition, RatingRules } from '../../../core/contract/rating-rules.ts'
import { percentileWords } from '../../../core/picture/percentile-words.ts'
import { allOf } from '../../../core/ratings/rank-bands.ts'
import {
  type FullStanding,
  paddlesDocumentOf,
  rankBandsOf,
  standingsOf,
} from '../../../core/ratings/standings.ts'
import { rankRandom } from '../../service/rank-work.ts'
import { command, json } from '../command.ts'
import { bandText, ordinal, rpmText, table } from '../figures.ts'
import { ratedIn } from '../rated-workspace.ts'
import { cutOff, percentileDefinition, text } from '../values.ts'

export default command({
  says: 'Lists the paddles of a workspace by their spin: mean, band, rank with its own band, percentile, tier.',
  takes: '',
  words: { least: 0, most: 0 },
  options: {
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    percentile: {
      takes: 'WAY',
      says: 'strictly-below, mid-rank or inclusive; the workspace’s own unless said',
      read: percentileDefinition,
    },
    tier: {
      takes: 'NAME=RPM',
      says: 'a tier of yours and the rpm it begins at, again for each; the workspace’s own unless said',
      read: cutOff,
      many: true,
    },
    json,
  },
  example: 'whorl paddles --tier high=2000 --tier middle=1700',
  async run({ options }, world) {
    const { entrants, rules: kept } = await ratedIn(options.workspace, world)
    const rules: RatingRules = {
      ...kept,
      percentileDefinition: options.percentile ?? kept.percentileDefinition,
      tiers: options.tier.length > 0 ? { by: 'rpm', tiers: options.tier } : kept.tiers,
    }
    const bands = allOf(rankBandsOf(entrants, rankRandom()))
    const standings = standingsOf(entrants, rules).map(one => ({
      ...one,
      rankBand: bands.get(one.setUpId) ?? null,
    }))
    world.out(
      options.json
        ? `${JSON.stringify(paddlesDocumentOf(standings, rules))}\n`
        : told(standings, rules.percentileDefinition),
    )
    return 0
  },
})

const head = ['place', 'paddle', 'set-up', 'rpm', 'band (95 %)', 'hits', 'percentile', 'tier', 'flag']

function told(standings: readonly FullStanding[], definition: PercentileDefinition): string {
  if (standings.length === 0) return 'No hit is given to a paddle yet.\n'
  const heldBack = standings.reduce((sum, one) => sum + one.heldBack, 0)
  const notes = [
    `Percentile: ${percentileWords[definition]}.`,
    ...(standings.some(one => one.hits === 1)
      ? [
          'The band of a single hit is that hit’s own; its place uses the scatter that the other paddles show.',
        ]
      : []),
    ...(heldBack > 0
      ? [`${heldBack} ${heldBack === 1 ? 'hit is' : 'hits are'} held back; whorl export --preview says why.`]
      : []),
  ]
  return `${table([head, ...standings.map(rowOf)], [3, 4, 5, 6])}${notes.map(note => `${note}\n`).join('')}`
}

const rowOf = (one: FullStanding): string[] => [
  placeText(one),
  one.paddle,
  one.setUp,
  one.meanRpm === null ? '–' : rpmText({ rpm: one.meanRpm, band: one.band }),
  bandText(one.band),
  String(one.hits),
  one.percentile === null ? '–' : one.percentile.toFixed(0),
  tierText(one),
  one.flag,
]

/** "3rd (2nd to 5th)", or "1st" where the place is sure. */
function placeText({ rank, rankBand }: FullStanding): string {
  if (rank === null || rankBand === null) return '–'
  if (rankBand.low === rankBand.high) return ordinal(rank)
  return `${ordinal(rank)} (${ordinal(rankBand.low)} to ${ordinal(rankBand.high)})`
}

function tierText({ tier, next }: FullStanding): string {
  if (tier === null) return '–'
  if (next === null) return tier
  return `${tier} (${next.tier}: ${(100 * next.probability).toFixed(0)} %)`
}
