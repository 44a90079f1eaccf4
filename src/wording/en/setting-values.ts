/** What a setting is set to, as a person would read it out: "PWM (control over the fourth wire)", "30 °C: 40 %". */
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'

const VALUE: Readonly<Record<string, string>> = {
  pwm: 'PWM (control over the fourth wire)',
  dc: 'DC (the voltage is lowered)',
  auto: 'automatic',
  running: 'running',
  absent: 'not running',
  on: 'on',
  off: 'off',
  true: 'on',
  false: 'off',
}

/** The text form of a setting's value, as a person would read it out. */
export function settingValue(ref: string, text: string): string {
  const known = entry(VALUE, text)
  if (known) return known
  if (ref.endsWith('/delay')) return text === '0' ? 'none' : `${cleanName(text)} s`
  if (!text.startsWith('[')) return cleanName(text)
  const numbers = text.match(/\[[\d.,\s-]*\]/g) ?? []
  if (ref.endsWith('/curve'))
    return numbers
      .map((pair) => pair.replace(/[[\]\s]/g, '').split(','))
      .map(([celsius, duty]) => `${celsius} °C: ${duty} %`)
      .join(', ')
  return cleanName(text.replace(/[[\]]/g, '').replace(/,\s*/g, ', ')) || 'none'
}
