import { build } from '../electron/build.mjs'

/** Before tests that run the program itself: one build, shared by all of them. */
export default async function setup(): Promise<void> {
  await build()
}
