/**
 * Says of each mutant that no test noticed where it is, as soon as that is known: a run takes long, and one that is
 * broken off has said something then.
 */
class AsFound {
  counted = 0
  unnoticed = 0

  onMutantTested({ status, fileName, location, mutatorName, replacement }) {
    this.counted++
    if (status !== 'Survived' && status !== 'NoCoverage') return
    this.unnoticed++
    const { line, column } = location.start
    const end = `${location.end.line}:${location.end.column}`
    console.log(
      `${fileName.replace(/.*\/core\//, 'core/')}:${line}:${column}-${end} ${mutatorName} → ${replacement} (${this.unnoticed} of ${this.counted})`,
    )
  }
}

export const strykerPlugins = [{ kind: 'Reporter', name: 'as-found', injectableClass: AsFound }]
