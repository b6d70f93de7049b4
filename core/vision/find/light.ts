/** Steps of a code value in the table. */
const fine = 4
const black = 16
const white = 235
/** Cameras and encoders spread the dark tones by about this power (ITU-R BT.709 as a whole is near 1/2.2). */
export const tonePower = 2.2

const table = Float32Array.from(
  { length: 256 * fine + 1 },
  (_, k) => (Math.max(k / fine - black, 0) / (white - black)) ** tonePower,
)

/**
 * The light behind a brightness code of limited range, white 1. A pixel that is half ball and half wall holds
 * the mean of their light, not of their codes: half way between the codes the rim would seem to lie further out
 * on a bright ball, by up to a third of the blur.
 */
export const lightOf = (code: number): number =>
  table[Math.max(0, Math.min(256 * fine, Math.round(code * fine)))]!
