/**
 * What a first boot expects at each point, why it is looked at, and what it means if it is not so. Written for a junior;
 * times, and what usually follows from what, are common practice without a source.
 */
import { settingParts } from '../../core/bench/setting.ts'
import type { Note } from '../../core/checks/prompt.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import { list } from './names.ts'
import { settingValue } from './setting-values.ts'

export type Facts = Note['facts']

/** A list of facts; empty where there is none. */
export const many = (fact: Facts[string] | undefined): readonly string[] =>
  Array.isArray(fact) ? fact.map(String) : []

/** "F1..F4": ids that count up by one, as a plan writes them. */
function ranges(names: readonly string[]): readonly string[] {
  const parts = names.map((name) => /^(.*?)(\d+)$/.exec(name))
  const follows = (i: number): boolean =>
    parts[i]?.[1] === parts[i - 1]?.[1] && Number(parts[i]?.[2]) === Number(parts[i - 1]?.[2]) + 1
  const runs: string[][] = []
  names.forEach((name, i) => {
    if (i > 0 && parts[i] && follows(i)) runs.at(-1)?.push(name)
    else runs.push([name])
  })
  return runs.flatMap((run) => (run.length < 3 ? run : [`${run[0]}..${run.at(-1)}`]))
}

const ids = (fact: Facts[string] | undefined): string => list(ranges(many(fact)).map(cleanName))

/** `board.SYS1` as it is printed on the board. */
export const short = (ref: string): string => cleanName(ref.replace(/^board\./, ''))

const paired = (facts: Facts, say: (ref: string, second: string) => string, second: string): string =>
  many(facts.refs)
    .map((ref, i) => say(ref, many(facts[second])[i] ?? ''))
    .join(', ')

/** Settings of one place stand together: "CPU: drive mode PWM; curve …". */
const SETTING: Readonly<Record<string, string>> = {
  drive: 'drive mode',
  curve: 'curve',
  delay: 'step-up delay',
  pulses: 'pulses per turn',
  alarm_below: 'alarm under',
  profile: 'LEDs',
  colours: 'colour order',
}

function settings(facts: Facts): string {
  const by = new Map<string, string[]>()
  many(facts.refs).forEach((ref, i) => {
    const value = many(facts.values)[i] ?? ''
    const { place, key } = settingParts(ref)
    const unit = UNIT[key] ?? ''
    const said = place
      ? `${entry(SETTING, key) ?? cleanName(key)} ${SAID[value] ?? settingValue(ref, value)}${unit}`
      : `the effect over all lights ${value}`
    by.set(place, [...(by.get(place) ?? []), said])
  })
  return [...by]
    .map(([place, said]) => (place ? `${cleanName(place)}: ${said.join('; ')}` : said.join('; ')))
    .join('. ')
}

const UNIT: Readonly<Record<string, string>> = { alarm_below: ' RPM', delay: ' s' }

const SAID: Readonly<Record<string, string>> = { pwm: 'PWM', dc: 'DC' }

const numbers = (all: readonly string[]): string =>
  `${all.length > 1 ? 'leads' : 'lead'} ${list(ranges(all))}`

function lights(facts: Facts): string {
  const dark = many(facts.dark)
  const lit = `lit, in whatever pattern they keep: ${ids(facts.parts)}`
  return dark.length > 0 ? `${lit}. Dark until the lighting program runs: ${ids(facts.dark)}` : lit
}

function turning(facts: Facts): string {
  const said = [
    ['parts', 'turning, slower than full speed'],
    ['full', 'at full speed'],
    ['still', 'at rest, as the curve asks'],
  ] as const
  return said
    .flatMap(([key, words]) => (many(facts[key]).length > 0 ? [`${words}: ${ids(facts[key])}`] : []))
    .join('; ')
}

export interface Guidance {
  readonly expect: (facts: Facts) => string
  /** A word in what is expected that not everybody has met, for the first point that has it. */
  readonly means?: string
  readonly why: string
  readonly ifNot: string
}

const cold = (facts: Facts): boolean => facts.stage === 'cold-start'

export const GUIDE: Readonly<Record<string, (facts: Facts) => Guidance>> = {
  leads: () => ({
    expect: (f) => {
      const ends = many(f.ends).length > 0 ? `; ${ids(f.ends)} home at the supply` : ''
      const sheet = paired(f, (ref, socket) => `${cleanName(ref)} in ${cleanName(socket)}`, 'sockets')
      return `${numbers(many(f.numbers))} of the wiring sheet, home to the stop: ${sheet}${ends}`
    },
    means: 'The wiring sheet has all leads by number; "whichlead draw PLAN --sheet" prints it',
    why: 'what is loose, or one socket off, is seen in a minute now and searched for an hour later',
    ifNot:
      'mark it; it is put right at once and looked at again. If the plan is wrong and the build right, change the plan first',
  }),
  blades: () => ({
    expect: () =>
      'every blade turns freely under a finger, its screws are tight, and nothing loose lies in a fan',
    why: 'a screw or tie is thrown by the first turn, and a fan that catches does not start',
    ifNot: 'take out what touches. What stays stiff with nothing in its way is the fan itself',
  }),
  spins: () => ({
    expect: turning,
    why: 'what does not turn cools nothing while you look at the rest',
    ifNot:
      'pump or processor fan still: switch off at once. Still, twitching and full speed have different causes: mark which',
  }),
  lit: () => ({
    expect: lights,
    why: 'no program speaks yet, so this shows supply and data leads alone',
    ifNot: 'one dark: its own lead. Dark from one place on: data ends there. All of one hub dark: its supply',
  }),
  settings: (facts) => ({
    expect: settings,
    why:
      facts.stage === 'firmware'
        ? 'with the wrong drive mode a fan runs flat out or not at all; a curve under its start leaves it standing'
        : 'a count too low leaves the last lights dark, one too high sends effects past the end; one effect over all hides the rest',
    ifNot: 'mark it; it is set right at once and read again',
  }),
  rpm: () => ({
    expect: (f) =>
      `a speed is shown: ${paired(f, (ref, rpm) => (rpm ? `${short(ref)} about ${rpm} RPM` : short(ref)), 'figures')}`,
    why: 'it shows that each speed wire is read, and that the right fan hangs there',
    ifNot: '0 RPM with the fan turning is the reading, not the fan. Double or half is a count of pulses',
  }),
  alarm: () => ({
    expect: (f) => `no alarm; limits: ${paired(f, (ref, rpm) => `${short(ref)} ${rpm} RPM`, 'figures')}`,
    why: 'an alarm that is always there is soon ignored, and with it a pump that has died',
    ifNot: 'fan turning and speed shown: the limit is above it. Else it is the fan or its reading',
  }),
  follows: () => ({
    expect: (f) => `slower at 30 %, faster at 100 %, each fan on ${list(many(f.refs).map(short))}`,
    why: 'only this shows that control wire and drive mode do their work',
    ifNot: 'none follows: the drive mode or the control wire. Some follow: the lead of the others',
  }),
  listed: () => ({
    expect: (f) => `in the list: ${ids(f.parts)}`,
    why: 'what is not listed hears no command, whatever its lights show',
    ifNot: 'its USB lead, the row of the header, its supply, or more on one header than that can carry',
  }),
  shows: () => ({
    expect: (f) => `one steady colour, as set, on ${ids(f.parts)}`,
    why: 'it shows that the program reaches every light',
    ifNot:
      'the pattern it came with: nobody speaks to it. Other colours: the colour order. One effect on all: the global effect',
  }),
  effect: () => ({
    expect: (f) =>
      `a slow running light reaches, in this order, ${paired(f, (ref, parts) => `${short(ref)}: ${cleanName(parts)}`, 'values')}`,
    why: 'counts and order in one look',
    ifNot:
      'it stops short: a count too low, or a break. It stays away: a count too high. It jumps: the order of leads or counts',
  }),
  answers: () => ({
    expect: (f) =>
      `lit alone, ${paired(f, (ref, part) => `${short(ref)} shows on ${cleanName(part)}`, 'values')}`,
    why: 'only this finds two lights of one kind that are exchanged',
    ifNot: 'another part lights: two leads are exchanged. Nothing lights: look at its lead',
  }),
  saved: (facts) =>
    cold(facts)
      ? {
          expect: (f) => `the pattern that was saved, before any program runs, on ${ids(f.parts)}`,
          why: 'it must come from the memory of the hub, not from the program',
          ifNot:
            'dark or frozen: mark it. Lit in the pattern that it came with: it was not saved there; save it again',
        }
      : {
          expect: (f) => `after saving, as before, what is set on ${ids(f.parts)}`,
          why: 'what is saved shows until the program runs, and whenever it does not',
          ifNot: 'what fell back did not take it: save once more, one hub after the other',
        },
  soak: () => ({
    expect: () => 'all as it was at the start: fans, lights, speeds, no alarm',
    why: 'contacts and loads near their limit fail warm, and now the bench is still at hand',
    ifNot: 'what fails warm and comes back cold is a contact or a load',
  }),
  watched: () => ({
    expect: (f) =>
      [
        [f.parts, 'turning evenly, or at rest by the curve and staying so'],
        [f.lights, 'lit without a flicker'],
      ]
        .flatMap(([of, words]) => (many(of).length > 0 ? [`${words}: ${ids(of)}`] : []))
        .join('; '),
    why: 'a contact that gives now and then, or a curve that hunts, is missed by a glance',
    ifNot:
      'one fan or light: its plug or lead. All of a header up and down: its curve, or the temperature that it follows',
  }),
  again: () => ({
    expect: () =>
      'with nothing started by hand: fans turn, every USB part is listed, lights show what is set',
    why: 'the next person will only press the switch',
    ifNot: 'the program does not start with the machine, or something was set and not kept',
  }),
}
