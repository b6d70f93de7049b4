import { launch } from './cli/launch.mjs'

/** `npm start`: the app on the person's own workspace, or `npm start -- --workspace FILE`. */
await launch(['open', ...process.argv.slice(2)])
