/** A word and what stands to it, for a `<dl>`. */
export function Fact({ word, children }: { word: string; children: React.ReactNode }) {
  return (
    <div>
      <dt className="quiet">{word}</dt>
      <dd>{children}</dd>
    </div>
  )
}
