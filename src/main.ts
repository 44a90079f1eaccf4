/** What must happen before anything else is loaded: the version needs nothing, and a closed pipe is no mistake. */
import { version } from './cli/version.ts'

for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0)
    throw error
  })

const argv = process.argv.slice(2)
if (argv.length === 1 && (argv[0] === '--version' || argv[0] === '-V')) process.stdout.write(`${version}\n`)
else {
  const { start } = await import('./cli/start.ts')
  const { stdout, stderr, env } = process
  const program = import.meta.filename
  process.exitCode = await start(argv, {
    cwd: process.cwd(),
    env,
    // Node makes a stream of it when it is first asked for.
    get stdin() {
      return process.stdin
    },
    stdout,
    stderr,
    program,
  })
  // Nothing is under way once a command has ended, and Node's own end would take all that it made apart first. The version
  // made next to nothing. What a stream still holds, or a reader that has gone away, is left to Node and to the line above.
  if ([stdout, stderr].every((stream) => stream.writableLength === 0 && stream.errored === null))
    process.exit()
}
