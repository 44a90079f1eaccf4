import { describe, expect, it } from 'vitest'
import { runChoice } from '../../src/plain/choice.ts'
import type { InputLine } from '../../src/plain/lines-in.ts'
import { english } from '../../src/wording/en/english.ts'

const choices = ['lights-dark', 'fan-still', 'zero-rpm', 'lights-stuck'].map((id) => {
  const { name, means } = english.symptom(id)
  return { id, name, hint: means }
})

async function choose(...lines: string[]) {
  const written: string[] = []
  const id = await runChoice(
    'What is wrong?',
    choices,
    {
      lines: (async function* (): AsyncGenerator<InputLine> {
        for (const text of lines) yield { text }
      })(),
      write: (t) => void written.push(t),
    },
    english,
  )
  return { id, text: written.join('') }
}

describe('choosing the symptom line by line', () => {
  it.each([
    ['2', 'fan-still'],
    ['fan-still', 'fan-still'],
    ['a header', 'zero-rpm'],
    ['Lights stuck', 'lights-stuck'],
    ['z', 'zero-rpm'],
  ])('"%s" is %s', async (line, id) => {
    expect((await choose(line)).id).toBe(id)
  })

  it('asks back where two fit, one is out of range, or none is meant', async () => {
    const { id, text } = await choose('lights', '9', '0', 'purple', '', '1')
    expect(id).toBe('lights-dark')
    expect(text).toContain(
      '"lights" may be: Lights dead on some fans; Lights stuck in a default pattern. Which one?',
    )
    expect(text).toContain('There is no answer 9; they go from 1 to 4')
    expect(text).toContain('There is no answer 0')
    expect(text).toContain('"purple" is not one of the answers')
  })

  it('leaves at the end of the input, or when told to', async () => {
    expect((await choose()).id).toBeNull()
    expect((await choose('quit', '1')).id).toBeNull()
  })
})
