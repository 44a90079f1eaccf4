/** An exercise from end to end, with a trainee who chooses by a rule; what is said about it at the end. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { type Choose, talk } from '../../src/cli/practice-talk.ts'
import { verdictLines } from '../../src/cli/practice-words.ts'
import { faultByName } from '../../src/core/faults/catalogue.ts'
import { faultText, parseFault } from '../../src/core/faults/fault.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { powerOf } from '../../src/job/drive/job.ts'
import { think } from '../../src/job/drive/think.ts'
import { beginExercise, chooseStep, didStep, engineRun, isChoosing } from '../../src/job/practice/exercise.ts'
import { judge } from '../../src/job/practice/judge.ts'
import { choosable, stepFor } from '../../src/job/practice/options.ts'
import { english } from '../../src/wording/en/english.ts'
import { SMALL } from '../support/program.ts'
import { groundFor } from '../support/run-job.ts'

const read = readPlan(readFileSync(SMALL, 'utf8'), SMALL)
if (!read.ok) throw new Error('the small example does not read')
const plan = read.value

function exercise(symptom: string, text: string) {
  const ground = groundFor(plan, symptom)
  const fault = parseFault(text)
  const known = fault && faultByName(ground.build, fault)
  if (!known) throw new Error(text)
  return { start: beginExercise(ground, known), engine: engineRun(ground, known), fault: known.fault }
}

describe('a trainee who takes the step that the engine would', () => {
  it.each([
    ['lights-dark', 'F3.light:unplugged'],
    ['fan-still', 'F1.motor:unplugged'],
    ['fan-still', 'F2:motor-dead'],
    ['zero-rpm', 'F1.motor:open-TACH'],
    ['lights-stuck', 'host/program:not-running'],
  ])('%s, %s: takes its minutes and goes nowhere astray', (symptom, text) => {
    const { start, engine } = exercise(symptom, text)
    let now = start
    for (let i = 0; i < 60 && now.job.end === null; i++) {
      if (!isChoosing(now.job)) {
        now = didStep(now)
        continue
      }
      const { step } = think(now.job).outlook
      const id = step.kind === 'check' ? step.check.id : step.kind === 'repair' ? step.repair.id : ''
      const chosen = choosable(now.job).find((c) => c.id === id)
      if (!chosen) throw new Error(`not offered: ${id}`)
      now = chooseStep(now, stepFor(now.job, chosen), id)
    }
    expect(now.job.end?.outcome).toBe('fixed')
    expect(judge(now, engine)).toMatchObject({
      minutes: engine.minutes,
      engineMinutes: engine.minutes,
      astray: null,
    })
  })
})

describe('a trainee who goes astray', () => {
  it('is told at which step, what it cost at least, and what was better', () => {
    const { start, engine } = exercise('lights-dark', 'F3.light:unplugged')
    const wrong = choosable(start.job).find((c) => c.id === 'mend substitute F1')
    if (!wrong) throw new Error('a new F1 is not offered')
    let now = chooseStep(start, stepFor(start.job, wrong), wrong.id)
    const before = now.job.minutes
    while (!isChoosing(now.job)) now = didStep(now)
    // Power off and on again at 2 minutes each, 10 for another fan, and the look afterwards.
    expect(now.job.minutes - before).toBeGreaterThan(2 * 2 + 10)
    const { astray } = judge(now, engine)
    expect(astray).toMatchObject({ nth: 1, idle: true })
    expect(astray?.loss).toBeGreaterThanOrEqual(2 * 2 + 10)
    const lines = verdictLines({ exercise: now, named: null }, engine, english).join('\n')
    expect(lines).toContain('your step 1')
    expect(lines).toContain('Better then: ')
    expect(lines).toContain('before the symptom was gone')
  })

  it('loses nothing by which power is left on: every step inside is reached through the gate, and it is paid', () => {
    const { start } = exercise('lights-dark', 'F3.light:unplugged')
    for (const chosen of choosable(start.job).filter((c) => c.group === 'inside' || c.group === 'repair')) {
      const now = chooseStep(start, stepFor(start.job, chosen), chosen.id)
      const prompt = now.job.pending?.prompt
      expect(powerOf(now.job)).toBe('on')
      expect(prompt, chosen.id).toMatchObject({
        show: 'do',
        purpose: 'gate',
        edits: [{ do: 'power', to: 'off' }],
      })
      const off = didStep(now)
      expect(powerOf(off.job)).toBe('off')
      expect(off.job.minutes).toBeGreaterThanOrEqual(start.job.minutes + 2)
    }
  })
})

/** Chooses by what is asked for: the first rule whose pattern the title fits. */
function byRules(rules: readonly (readonly [RegExp, string | RegExp])[], seen: string[]): Choose {
  return async ({ title, fresh, choices }) => {
    seen.push(...fresh, title)
    const rule = rules.find(([wanted]) => wanted.test(title))
    if (!rule) throw new Error(`nobody knows what to say to: ${title}`)
    const [, say] = rule
    const found = choices.find((c) => (typeof say === 'string' ? c.id === say : say.test(c.name)))
    return found?.id
  }
}

describe('the talk of an exercise', () => {
  const repair = /push.*light plug of fan F3|light plug of fan F3.*push/iu

  it('shows what is seen, lets the step be chosen, asks what it was, and compares', async () => {
    const { start, engine, fault } = exercise('lights-dark', 'F3.light:unplugged')
    const seen: string[] = []
    const rules = [
      [/What next/u, 'repair'],
      [/Repair inside: where/u, 'F3'],
      [/Repair inside: /u, /light plug of fan F3/u],
      [/What was it/u, faultText(fault)],
      [/./u, 'done'],
    ] as const
    const talked = await talk(start, ['Begin.'], [], byRules(rules, seen), english)
    expect(seen.join('\n')).toMatch(/F3.*dark/u)
    expect(seen.some((l) => repair.test(l))).toBe(true)
    const lines = verdictLines(talked, engine, english)
    expect(lines[0]).toMatch(/^Right: /u)
    expect(lines[1]).toMatch(
      /^You: \d+ minutes, with one step chosen\. Whichlead on the same fault: \d+ minutes/u,
    )
    // What nobody could tell is not shown, and so leaves no gap in the count.
    expect(start.job.trail.some((e) => e.reply === 'unsure')).toBe(true)
    for (const shown of [seen, lines]) {
      const numbers = shown.flatMap((l) => /^ *(\d+)\. /u.exec(l)?.[1] ?? []).map(Number)
      expect(numbers.length).toBeGreaterThan(1)
      expect(numbers).toEqual(numbers.map((_, i) => i + 1))
    }
  })

  it('a wrong name is told to be wrong, with the true cause', async () => {
    const { start, engine, fault } = exercise('lights-dark', 'F3.light:unplugged')
    const other = parseFault('H1.3:dead')
    const rules = [
      [/What next/u, 'repair'],
      [/Repair inside: where/u, 'F3'],
      [/Repair inside: /u, /light plug of fan F3/u],
      [/What was it/u, 'H1.3:dead'],
      [/./u, 'done'],
    ] as const
    const talked = await talk(start, [], other ? [other] : [], byRules(rules, []), english)
    const [first] = verdictLines(talked, engine, english)
    expect(first).toContain('it was not')
    expect(first).toContain(english.fault(fault, { plan }).name)
  })

  it('who gives up is told what it was', async () => {
    const { start, engine, fault } = exercise('fan-still', 'F2:motor-dead')
    const talked = await talk(start, [], [], byRules([[/What next/u, 'give-up']], []), english)
    const lines = verdictLines(talked, engine, english).join('\n')
    expect(lines).toContain(english.fault(fault, { plan }).name)
    expect(lines).toContain('before the symptom was gone')
  })

  it('back from the list of steps offers the kinds again', async () => {
    const { start } = exercise('fan-still', 'F2:motor-dead')
    const titles: string[] = []
    let nth = 0
    const said = ['inside', 'back', undefined]
    await talk(
      start,
      [],
      [],
      async ({ title }) => {
        titles.push(title)
        return said[nth++]
      },
      english,
    )
    expect(titles[0]).toContain('What next?')
    expect(titles[1]).toContain('Look inside')
    expect(titles[2]).toContain('What next?')
  })
})

it('a row says that behind it is a choice of steps, not a number of things to do', () => {
  const { count } = english.practice
  expect(count('Look inside', 35)).toBe('Look inside (one of 35 steps)')
  expect(count('fan F1', 1)).toBe('fan F1 (one step)')
})
