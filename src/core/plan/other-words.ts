/** Words of the trade for which a plan has another word: no slips of the pen, so no distance between letters finds them. */
const OTHER: Readonly<Record<string, string>> = {
  type: 'kind',
  current: 'amps',
  ampere: 'amps',
  start_current: 'start_amps',
  locked_current: 'locked_amps',
  voltage: 'volts',
  mode: 'drive',
  control: 'drive',
  speed: 'rpm',
  position: 'at',
  location: 'at',
  direction: 'flow',
  airflow: 'flow',
  intake: 'in',
  exhaust: 'out',
  gauge: 'awg',
  colour_order: 'colours',
  color_order: 'colours',
  power_supply: 'supply',
  psu: 'supply',
  mainboard: 'board',
  motherboard: 'board',
  components: 'parts',
  cables: 'leads',
  wires: 'leads',
  connections: 'leads',
}

/** What lights are called by what they are made of: `argb_hub`, `rgb_headers`, `led`. */
const LIT = /^(a?rgb|leds?)(?=_|$)/

/** The plan's own word for one of the trade, should it be among `known`. `word` is small, with `_` between. */
export function planWordFor(word: string, known: readonly string[]): string | undefined {
  const own = [OTHER[word], word.replace(LIT, 'light')]
  return known.find((candidate) => own.includes(candidate.replaceAll('-', '_')))
}
