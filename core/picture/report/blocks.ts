import type { Scene } from '../scene.ts'

/** A report as what stands below each other; `html-of` and the host's PDF writer show the same blocks. */
export type Block =
  | { kind: 'heading'; text: string }
  | { kind: 'paragraph'; text: string; quiet?: boolean }
  | { kind: 'list'; items: string[] }
  /** A name and its value, a line each. */
  | { kind: 'facts'; rows: [name: string, value: string][] }
  /** `right` numbers the columns whose figures end at one place. */
  | { kind: 'table'; says: string; head: string[]; rows: string[][]; right: number[] }
  | { kind: 'picture'; scene: Scene }

export type Report = {
  title: string
  subtitle: string
  /** The last day of the evidence, as 2026-05-31: a report has no other date. */
  day: string
  blocks: Block[]
}
