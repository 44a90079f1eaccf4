/** Whoever meets a word of the trade the first time finds it explained in the help of that very question. */
import { describe, expect, it } from 'vitest'
import type { Ask, Prompt } from '../../src/core/checks/prompt.ts'
import { english } from '../../src/wording/en/english.ts'
import { askMany, doReseat, fakeSession } from '../support/fake-session.ts'

const speeds: Ask = {
  ...askMany,
  marks: ['board.CPU', 'board.SYS1'].map((at) => ({ id: at, observe: { what: 'rpm', at }, value: 'zero' })),
}
const mode: Ask = {
  ...askMany,
  many: false,
  observe: [{ what: 'setting', at: 'headers/SYS1/drive' }],
  answers: ['pwm', 'dc'].map((value) => ({ id: value, means: [value] })),
}
const termsOf = (prompt: Prompt) => english.terms(fakeSession([{ prompt }]).view()).join('\n')

describe('words of the trade', () => {
  it('a question on speeds explains where they are read and what RPM is, and no word that it does not use', () => {
    const said = termsOf(speeds)
    expect(said).toMatch(/^firmware: /mu)
    expect(said).toMatch(/^fan page: /mu)
    expect(said).toMatch(/^RPM: turns a minute/mu)
    expect(said).not.toMatch(/splitter|PWM|colour/u)
  })

  it('words of an answer and of a thing to do count too', () => {
    expect(termsOf(mode)).toMatch(/^PWM: [\s\S]*^DC: /mu)
    expect(termsOf(doReseat)).toMatch(/^hub: /mu)
  })

  it('each is said once, on a line of its own', () => {
    const words = termsOf(speeds)
      .split('\n')
      .map((l) => l.split(':')[0])
    expect(new Set(words).size).toBe(words.length)
  })
})
