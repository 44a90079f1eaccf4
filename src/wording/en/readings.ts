/** What was taken from a reading of another tool, what was not and why, and why one is refused. */
import type { What } from '../../core/bench/observable.ts'
import { valuesOf } from '../../core/bench/observable.ts'
import type { Note } from '../../core/checks/prompt.ts'
import type { Remark, Source, Unreadable } from '../../core/readings/reading.ts'
import type { WhyLeft } from '../../core/readings/takes.ts'
import type { ReadingRefusal } from '../../job/read-body.ts'
import { clean, cleanName, shorten } from '../clean.ts'
import { entry } from '../entry.ts'
import type { Scene } from '../language.ts'
import { list, refName } from './names.ts'
import { sightingWords } from './values.ts'

const SOURCE: Readonly<Record<Source, string>> = {
  sensors: 'the figures of sensors',
  hwmon: 'hwmon files',
  'usb-list': 'the list of USB devices',
  'usb-tree': 'the tree of USB devices',
  'usb-details': 'the USB devices in full',
  'kernel-log': 'the log of the kernel',
  redfish: 'Redfish resources',
}

const WHY_LEFT: Readonly<Record<WhyLeft, string>> = {
  'no-figure': 'it has no figure',
  'temperature-open':
    'this speed is right when it is warm and wrong when it is cool; which it was, the reading does not say',
  'too-slow-to-count': 'a fan as slow as it should be reads 0 with the divisor set there',
  'whose-speed': 'no fan should report there, so nobody can say what the speed ought to be',
  'other-setting':
    'it is neither what the plan has nor a mistake that is known; look whether the plan is up to date',
  'not-in-plan': 'the plan leaves it open',
  'board-cannot-be-set': 'by the plan this cannot be set there',
  'off-means-unknown': 'what "no control" does differs from chip to chip',
  'no-place': 'no place was named for it',
  'not-a-fan-port': 'the place named for it has no fan socket',
  'not-trusted': 'the chip itself marks it as not to be trusted',
  'turned-off': 'the channel is turned off',
  absent: 'it says that no fan is fitted there',
  'percent-only': 'a share of the top speed is no speed',
  disputed: 'two figures for it do not agree',
  'other-limit': 'the limit in the chip is another than the one of the plan',
  'list-not-whole': 'the list is cut off, so what is missing from it may be there',
  'power-is-off': 'the power is off',
}

const REMARK: Readonly<Record<Remark, (at: string) => string>> = {
  'repaired-stray-lines': (at) =>
    `Lines of error messages stood in it and were passed over: ${shorten(at, 60)}`,
  'repaired-comma': () => 'A chip without figures left a comma too many; it was passed over.',
  'doubled-name': (at) => `Two channels are called ${at}; both were read, by their own names.`,
  'no-fan-data': () =>
    'There is no fan in it. That is no word on the fans: the driver of the chip may be missing.',
  'hub-claims-self-powered': (at) =>
    `${at} claims to have a supply of its own, but its state says that it lives on the bus. Trust the state.`,
  'no-driver': (at) => `No driver took the device at ${at}.`,
  'percent-over-100': (at) => `${at} has a percentage over 100; it was not taken for one.`,
  'sources-disagree': (at) => `${at} and the sensor that it names do not agree.`,
  'links-only': (at) => `${at || 'A list'} holds links only. Hand in the resources behind them.`,
  'count-mismatch': (at) => `${at || 'A list'} counts another number than it lists.`,
  'several-chips': (at) => `More than one chip has ${at}. Name it with its chip: CHIP/${at}=PLACE.`,
}

const UNREADABLE: Readonly<Record<Unreadable, string>> = {
  empty: 'It is empty',
  'not-known':
    'It is no reading that is known here. Known are: sensors -j, copies of hwmon files, lsusb, lsusb -t, lsusb -v, lines of the kernel log, Redfish fan resources',
  broken: 'It breaks off or has something strange in it',
  fahrenheit:
    'It was taken in Fahrenheit, which spoils speeds and alarms as well. Take it again without that option',
  'too-long': 'It is far longer than any such reading',
}

const many = (fact: Note['facts'][string] | undefined): readonly string[] =>
  fact === undefined ? [] : typeof fact === 'object' ? fact : [String(fact)]

function takenLine(fact: string, scene: Scene): string {
  const [what = '', at = '', value = '', from = '', figure = ''] = fact.split('\t')
  const known = Object.hasOwn(valuesOf, what)
  const says = known
    ? sightingWords({ what: what as What, at }, value, 'on', scene)
    : `${what} ${at}: ${value}`
  return `  ${cleanName(from)} (${cleanName(figure)}): ${says}`
}

function leftLine(fact: string, scene: Scene): string {
  const [from = '', why = '', figure = '', at = ''] = fact.split('\t')
  const where = at === '' ? '' : ` at ${refName(at, scene)}`
  const said = figure === '' ? '' : ` (${cleanName(figure)})`
  return `  Not taken: ${cleanName(from)}${said}${where}; ${entry(WHY_LEFT, why) ?? cleanName(why)}.`
}

function remarkLine(fact: string): string {
  const [code = '', at = ''] = fact.split('\t')
  return `  ${entry(REMARK, code)?.(cleanName(at)) ?? cleanName(code)}`
}

/** One line for the whole, one for each thing taken, one for each that was not. */
export const readingLines = (facts: Note['facts'], scene: Scene): string[] => [
  `Read: ${entry(SOURCE, String(facts.source)) ?? 'a reading'}.`,
  ...many(facts.taken).map((t) => takenLine(t, scene)),
  ...many(facts.left).map((l) => leftLine(l, scene)),
  ...many(facts.remarks).map(remarkLine),
]

const NAME: Readonly<Record<Extract<ReadingRefusal, { is: 'name' }>['mistake']['why'], string>> = {
  form: 'is not of the form NAME=PLACE, such as fan1=SYS1',
  'no-such-place': 'names no place of this plan',
  twice: 'gives one name two places',
}

/** Why a reading was not taken. */
export function readingRefusalText(refusal: ReadingRefusal): string {
  switch (refusal.is) {
    case 'power-off':
      return 'With the power off there is nothing to read. Take it again once the machine runs.'
    case 'unreadable': {
      const where = refusal.line === undefined ? '' : ` (line ${refusal.line})`
      const found = refusal.found === undefined ? '' : `: ${shorten(clean(refusal.found), 60)}`
      return `Nothing can be taken from this reading. ${UNREADABLE[refusal.why]}${where}${found}.`
    }
    case 'name': {
      const { given, why, near } = refusal.mistake
      const hint = near.length === 0 ? '' : ` There is: ${near.slice(0, 20).map(clean).join(', ')}.`
      return `"${shorten(clean(given), 40)}" ${NAME[why]}.${hint}`
    }
    case 'nothing-taken': {
      const open = refusal.left.filter((l) => l.why === 'no-place')
      const remarks = refusal.remarks.map(({ code, at }) => REMARK[code](cleanName(at)))
      const others = [
        ...new Set(
          refusal.left
            .filter((l) => l.why !== 'no-place')
            .map((l) => `${cleanName(l.from)}: ${WHY_LEFT[l.why]}`),
        ),
      ]
      const names = open
        .slice(0, 12)
        .map((l) => `${cleanName(l.from)}${l.figure === '' ? '' : ` (${cleanName(l.figure)})`}`)
      const say =
        open.length === 0
          ? ''
          : ` Say which is which, since nothing is guessed: ${cleanName(open[0]?.from ?? '')}=PLACE. In the reading: ${list(names)}. Places: ${refusal.places.slice(0, 30).map(clean).join(', ')}. For good: in the plan, under readings.`
      return `Nothing can be taken from this reading.${[...remarks, ...others].map((r) => ` ${r.replace(/\.$/, '')}.`).join('')}${say}`
    }
  }
}
