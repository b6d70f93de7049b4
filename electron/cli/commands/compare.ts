import type { CompareDocument } from '../../../core/contract/ratings.ts'
import { withBorrowedSpread } from '../../../core/ratings/borrowed-spread.ts'
import { allPairs, comparePairs } from '../../../core/ratings/compare.ts'
import { command, json } from '../command.ts'
import { rpmText } from '../figures.ts'
import { pickEntrants } from '../pick-entrants.ts'
import { ratedIn } from '../rated-workspace.ts'
import { text } from '../values.ts'

export default command({
  says: 'Compares paddles, every pair of those named: the difference, its band, and which one spins more.',
  takes: 'A B … (NAME, or "NAME / SET-UP")',
  words: { least: 2, most: Number.POSITIVE_INFINITY },
  options: {
    workspace: { takes: 'FILE', says: 'the workspace; your own unless said', read: text },
    json,
  },
  example: 'whorl compare "Heron 14 / stock" "Heron 14 / weighted" "Avocet 16"',
  async run({ words, options }, world) {
    const { entrants } = await ratedIn(options.workspace, world)
    const rated = entrants.flatMap(one => (one.figure === null ? [] : [{ ...one, figure: one.figure }]))
    const known = withBorrowedSpread(rated.map(({ figure }) => figure))
    const picked = pickEntrants(words, entrants).map(({ label, one }) => ({
      label,
      figure: one.figure,
      mean: known[rated.findIndex(({ paddle, setUp }) => paddle === one.paddle && setUp === one.setUp)]!,
    }))
    const pairs = allPairs(picked)
    const documents = comparePairs(pairs.map(([a, b]) => [a.mean, b.mean] as const)).map(
      (comparison, i): CompareDocument => {
        const [a, b] = pairs[i]!
        return { schema: 'whorl.compare/1', a: a.label, b: b.label, ...comparison }
      },
    )
    if (options.json) for (const document of documents) world.out(`${JSON.stringify(document)}\n`)
    else world.out(`${documents.map(told).join('\n')}${notesOn(picked, documents)}`)
    return 0
  },
})

function told({ a, b, differenceRpm, band, probabilityAOverB, adjustedP }: CompareDocument): string {
  if (band === null || probabilityAOverB === null || adjustedP === null) {
    const said = `${Math.abs(differenceRpm).toFixed(0)} rpm`
    return `${a} against ${b}\n  ${said} apart; one hit each cannot say whether the paddles differ\n`
  }
  const [more, less, chance] =
    probabilityAOverB >= 0.5 ? [a, b, probabilityAOverB] : [b, a, 1 - probabilityAOverB]
  const verdict = adjustedP < 0.05 ? `${more} spins more` : 'They may spin alike'
  return [
    `${a} against ${b}`,
    `  difference ${signed(rpmText({ rpm: differenceRpm, band }))} rpm, ${Math.round(100 * band.level)} % band ${signed(band.lowRpm.toFixed(0))} to ${signed(band.highRpm.toFixed(0))} rpm`,
    `  ${chance > 0.995 ? 'almost certainly' : `${(100 * chance).toFixed(0)} %:`} ${more} spins more than ${less}`,
    `  ${verdict} (p ${adjustedP < 0.001 ? 'below 0.001' : `= ${adjustedP.toFixed(3)}`})`,
    '',
  ].join('\n')
}

/** A difference shows its minus as one: a hyphen is easily taken for the dash of a range. */
const signed = (figure: string) => figure.replace(/^-/, '−')

function notesOn(
  picked: readonly { figure: { hits: number } | null; label: string }[],
  { length }: readonly CompareDocument[],
): string {
  const single = picked.filter(({ figure }) => figure?.hits === 1).map(({ label }) => label)
  const twofold = picked.filter(({ figure }) => figure?.hits === 2).map(({ label }) => label)
  const notes = [
    ...(length > 1 ? [`p is corrected for ${length} pairs looked at (Holm).`] : []),
    ...(single.length > 0
      ? [`With a single hit, the scatter that other paddles show is used: ${single.join(', ')}.`]
      : []),
    ...(twofold.length > 0
      ? [`With two hits the chance is cautious, up to 8 points too near to even: ${twofold.join(', ')}.`]
      : []),
  ]
  return notes.length > 0 ? `\n${notes.join('\n')}\n` : ''
}
