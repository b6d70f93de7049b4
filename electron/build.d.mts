/**
 * Builds host and page into dist/ unless they are up to date. `make` builds into the folder it is given;
 * `root` is the checkout that holds sources and dist/. Both are for tests.
 */
export function build(make?: (folder: string) => Promise<void>, root?: string): Promise<void>
