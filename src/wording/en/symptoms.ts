/** Symptoms as a technician comes with them. An id without words here is said by its own. */
import { entry } from '../entry.ts'
import type { SymptomText } from '../language.ts'

export const SYMPTOMS: Readonly<Record<string, SymptomText>> = {
  'lights-dark': {
    name: 'Lights dead on some fans',
    means: 'Some fans or strips stay dark while others are lit, or all are dark.',
  },
  'fan-still': {
    name: 'A fan does not spin',
    means: 'A fan stands still, or twitches and gives up.',
  },
  'zero-rpm': {
    name: 'A header reports 0 RPM',
    means: 'The firmware or a program shows 0 RPM, or nothing, for a header; the fan may well turn.',
  },
  'lights-stuck': {
    name: 'Lights stuck in a default pattern',
    means: 'The lights run the pattern they came with and ignore what is set.',
  },
  'lights-order': {
    name: 'Lights in the wrong order, or only part of a fan lit',
    means: 'Effects jump between fans, stop short, or leave part of a fan dark.',
  },
  'wrong-colours': {
    name: 'Wrong colours',
    means: 'Lights follow, but show other colours than those set.',
  },
  'global-effect': {
    name: 'One effect over everything',
    means: 'All lights show the same effect, whatever is set for each.',
  },
  'not-listed': {
    name: 'A hub or controller is not found',
    means: 'The lighting program or the list of USB devices does not show it.',
  },
  'fans-full': {
    name: 'Fans at full speed, or not following',
    means: 'Fans run flat out, or do not follow their setting.',
  },
  'odd-reading': {
    name: 'A fan too slow, or a reading that cannot be right',
    means: 'A speed is too low, double, half, or jumps about.',
  },
  'fans-hunting': {
    name: 'Fans stop now and then, or hunt',
    means: 'Fans stop and start again, speed up and slow down, or tick.',
  },
  'lights-flicker': {
    name: 'Lights flicker, or go out now and then',
    means: 'Lights flicker, or go dark for a moment and come back.',
  },
  alarm: {
    name: 'A fan or pump alarm at first boot',
    means: 'The board stops or warns at power-on because of a fan or pump.',
  },
  'all-dead': {
    name: 'Everything dead after wiring',
    means: 'Nothing turns and nothing lights at power-on.',
  },
  'works-then-stops': {
    name: 'Works, then stops',
    means: 'It is right for a while and fails when warm, after sleep or after a restart.',
  },
  survey: {
    name: 'Not sure: look over everything',
    means: 'Something is wrong that fits none of these; fans, lights, readings and lists are looked over.',
  },
  'which-symptom': {
    name: 'Not named yet',
    means: 'The symptom is still to be found, by what is seen.',
  },
  'first-boot': {
    name: 'First boot',
    means: 'The build is wired and is to be switched on for the first time.',
  },
}

/** Several in one line; none: that it is not named yet. */
export const symptomNames = (ids: readonly string[]): string =>
  (ids.length === 0 ? ['which-symptom'] : ids)
    .map((id) => symptomText(id).name)
    .map((name, i) => (i === 0 ? name : name.replace(/^\p{Lu}(?=\p{Ll}| )/u, (c) => c.toLowerCase())))
    .join('; ')

export function symptomText(id: string): SymptomText {
  const words = id.replace(/-/g, ' ').replace(/^./, (c) => c.toUpperCase())
  return entry(SYMPTOMS, id) ?? { name: words, means: words }
}
