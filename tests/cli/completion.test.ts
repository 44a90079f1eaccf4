import { spawnSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { COMMANDS } from '../../src/cli/commands.ts'
import { completionFor, SHELLS } from '../../src/cli/completion.ts'
import { english } from '../../src/wording/en/english.ts'

const script = (shell: (typeof SHELLS)[number]) =>
  completionFor(shell, ['lights-dark', 'fan-still'], english.program).join('\n')

describe('completion', () => {
  it.each(SHELLS)('%s knows every command and option, and no other', (shell) => {
    const text = script(shell)
    for (const command of COMMANDS) {
      if (!command.hidden) expect(text).toContain(command.name)
      for (const option of command.options)
        expect(text).toContain(shell === 'fish' ? `-l ${option.name}` : `--${option.name}`)
    }
    expect(text).toContain('lights-dark')
  })

  // The shell itself is the judge of its script.
  const complete = (...words: string[]) => {
    const at = words.length - 1
    const line = `${script('bash')}\nCOMP_WORDS=(${words.map((w) => `'${w}'`).join(' ')}); COMP_CWORD=${at}; _whichlead; printf '%s\\n' "\${COMPREPLY[@]}"`
    return spawnSync('bash', ['--norc', '-c', line], { encoding: 'utf8' }).stdout.trim().split('\n')
  }

  it.skipIf(spawnSync('bash', ['--version']).status !== 0)(
    'bash completes commands, options and symptoms',
    () => {
      expect(complete('whichlead', 'di')).toEqual(['diagnose'])
      expect(complete('whichlead', 'bench', '--li')).toEqual(['--list-faults'])
      expect(complete('whichlead', 'diagnose', 'a.yaml', '--symptom', 'f')).toEqual(['fan-still'])
      expect(complete('whichlead', 'help', 'sch')).toEqual(['schema'])
    },
  )
})
