/** Endings that the built program cannot easily be brought to from outside: a mistake of its own. */
import { describe, expect, it } from 'vitest'
import type { Shell } from '../../src/cli/command.ts'
import { crashed, start } from '../../src/cli/start.ts'
import { english } from '../../src/wording/en/english.ts'

function outside(env: Record<string, string> = {}) {
  const out: string[] = []
  const err: string[] = []
  const stream = (into: string[]) => ({ write: (text: string) => into.push(text) > 0 })
  return {
    out,
    err,
    shell: {
      cwd: process.cwd(),
      env,
      stdin: process.stdin,
      stdout: stream(out) as unknown as NodeJS.WriteStream,
      stderr: stream(err) as unknown as NodeJS.WriteStream,
    },
  }
}

describe('a mistake of the program itself', () => {
  const told = (env: Record<string, string>, log?: string) => {
    const err: string[] = []
    const shell: Pick<Shell, 'language' | 'err' | 'job' | 'env'> = {
      language: english,
      err: (line) => void err.push(line),
      job: log === undefined ? {} : { log },
      env,
    }
    const code = crashed(new Error('joint J3 has no socket'), shell)
    return { code, err }
  }

  it('ends with 70, one line, where the log is, and no stack', () => {
    const { code, err } = told({}, '/jobs/studio one.ndjson')
    expect(code).toBe(70)
    expect(err).toHaveLength(2)
    expect(err[0]).toContain('joint J3 has no socket')
    expect(err[1]).toContain("whichlead resume '/jobs/studio one.ndjson'")
    expect(err.join('\n')).not.toContain('    at ')
  })

  it('shows the stack to whoever asks for it', () => {
    expect(told({ WHICHLEAD_DEBUG: '1' }).err.join('\n')).toContain('    at ')
  })
})

describe('from the command line to an exit code', () => {
  it('help and version are 0, a mistake is 2 with nothing on standard output', async () => {
    const help = outside()
    expect(await start(['--help'], help.shell)).toBe(0)
    expect(help.err).toEqual([])
    const wrong = outside()
    expect(await start(['bench'], wrong.shell)).toBe(2)
    expect(wrong.out).toEqual([])
    expect(wrong.err.join('')).toContain('needs PLAN')
  })

  it('takes the language of the environment where it is here, and English where it is not', async () => {
    for (const env of [{ LANG: 'en_GB.UTF-8' }, { LC_ALL: 'fr_FR.UTF-8' }, {}]) {
      const at = outside(env as Record<string, string>)
      expect(await start(['--help'], at.shell)).toBe(0)
      expect(at.out.join('')).toContain('Commands:')
    }
  })
})
