export type BallKind = {
  id: string
  name: string
  /** The middle of what the rules allow; where they set the least size alone, that size. */
  diameterMetres: number
  leastMetres: number
  mostMetres: number
  /** The rule book and its place. */
  source: string
}

const inch = 0.0254
/** Across, from the way round. */
const across = (round: number) => round / Math.PI

const ball = (id: string, name: string, least: number, most: number, source: string): BallKind => ({
  id,
  name,
  diameterMetres: (least + most) / 2,
  leastMetres: least,
  mostMetres: most,
  source,
})

/** Balls and the sizes that their rule books allow. The first is the one that a plan begins with. */
export const ballKinds: readonly BallKind[] = [
  ball(
    'pickleball',
    'Pickleball',
    2.87 * inch,
    2.97 * inch,
    'USA Pickleball rulebook, 2.D: 2.87–2.97 in across',
  ),
  ball(
    'tennis',
    'Tennis',
    0.0654,
    0.0686,
    'ITF Rules of Tennis, appendix I, type 2: 6.54–6.86 cm across (from memory)',
  ),
  ball(
    'table-tennis',
    'Table tennis',
    0.04,
    0.0406,
    'ITTF leaflet T3, plastic balls: 40.0–40.6 mm across (from memory)',
  ),
  ball(
    'golf',
    'Golf',
    1.68 * inch,
    1.68 * inch,
    'R&A and USGA Equipment Rules, part 4: at least 1.680 in across (from memory)',
  ),
  ball(
    'baseball',
    'Baseball',
    across(9 * inch),
    across(9.25 * inch),
    'Official Baseball Rules, 3.01: 9–9¼ in round (from memory)',
  ),
  ball(
    'cricket',
    'Cricket',
    across(0.224),
    across(0.229),
    'MCC Laws of Cricket, law 4.1: 22.4–22.9 cm round (from memory)',
  ),
]

/** The ball of that id or name, in whatever case; null for none. */
export function ballNamed(name: string): BallKind | null {
  const wanted = name.trim().toLowerCase()
  return ballKinds.find(kind => kind.id === wanted || kind.name.toLowerCase() === wanted) ?? null
}
