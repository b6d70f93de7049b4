/** A paddle and how it is dressed, as people write both in one line. */
export type PaddleWords = { paddle: string; setUp: string }

/**
 * A line as `Heron 14 / weighted`; without a set-up it is the stock one.
 *
 * @example paddleWordsOf('Heron 14') // { paddle: 'Heron 14', setUp: 'stock' }
 */
export function paddleWordsOf(line: string): PaddleWords {
  const [paddle = '', ...rest] = line.split(' / ')
  return { paddle: paddle.trim(), setUp: rest.join(' / ').trim() || 'stock' }
}
