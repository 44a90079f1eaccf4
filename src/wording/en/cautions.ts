/**
 * Cautions. The full text comes once a job, before the first hands-in step; the short ones go with single steps.
 * What they say follows desktop-PC service guides and board manuals (unplug first, never live, never open the
 * supply); the waiting times and the wrist-strap rule are common practice, no source.
 */
import { entry } from '../entry.ts'
import type { CautionText } from '../language.ts'

/** A deed stands apart from its reasons: beside a step that is that deed it need not be said again. */
type Words = Omit<CautionText, 'id'> & { readonly deed?: string }

/** The caution that says in full how power goes off. */
export const FULL = 'shut-down-full'

export const CAUTIONS: Readonly<Record<string, Words>> = {
  'shut-down-full': {
    title: 'Before your hands go into the case',
    deed: 'Shut the machine down, switch the supply off, pull its lead out of the wall.',
    lines: [
      'While the lead is in, the board is live even when the machine is off.',
      'Hold the power button for ten seconds, then wait until every light is out.',
      'Discharge yourself: touch bare metal of the case, or wear a wrist strap.',
    ],
  },
  'live-plugging': {
    title: 'Never plug live',
    lines: ['Never plug or unplug a fan, light or internal USB lead while the machine has power.'],
  },
  'never-open-supply': {
    title: 'The supply stays shut',
    lines: [
      'Never open the supply and put nothing into it: it holds a dangerous charge long after it is unplugged.',
    ],
  },
  'five-volt-on-twelve': {
    title: '5 V lights and 12 V headers',
    lines: [
      'A 5 V light lead on a 12 V header destroys the lights at once.',
      'Read the print beside the header and look for the missing pin of the 5 V plug before you push it in.',
    ],
  },
  'manuals-first': {
    title: 'The manuals come first',
    lines: [
      'Where a manual or the rules of your place say otherwise, they come first.',
      'Work on the mains side is for licensed people.',
    ],
  },
  'power-off-short': {
    title: 'Power off first',
    lines: [
      'Shut down, switch the supply off, pull its lead, wait for the lights to go out, touch bare metal.',
    ],
  },
  blades: {
    title: 'Mind the blades',
    lines: [
      'Keep fingers, hair and leads away from the blades: a fan can start at any moment.',
      'Do not stop a turning fan by hand.',
    ],
  },
  'meter-live': {
    title: 'Measuring with power on',
    lines: [
      'Touch one contact at a time with the probe and let nothing slip; black probe on bare metal of the case or a ground contact.',
      'Take off the wrist strap and any ring while you measure a live machine.',
    ],
  },
  'no-probe-across-pins': {
    title: 'Never bridge pins',
    lines: [
      'Never bridge two pins of a header with a probe, a cap or a screwdriver: headers are not jumper blocks.',
    ],
  },
  'cord-on-the-lead': {
    title: 'A cord round the lead',
    lines: [
      'Loop a cord or a plastic tie round the lead, a hand from its plug, and lead its end out of the case, clear of every fan.',
      'The lead is moved by that end once power is on: no hand goes in. A supply or USB lead is never moved while it is on.',
    ],
  },
  'pull-by-the-plug': {
    title: 'Pull by the plug',
    lines: ['Press the latch first and pull by the body of the plug, never by the wires.'],
  },
  'burnt-smell': {
    title: 'Smell, smoke, a browned plug',
    lines: ['Cut the mains at once and do not try again. Replace the plug and what hangs on it.'],
  },
  'no-cooling-test': {
    title: 'No test without cooling',
    lines: ['Never run the processor with its pump or fan off for longer than a look at the start-up page.'],
  },
  'unknown-voltage': {
    title: 'Unknown voltage',
    lines: [
      'Do not try a lead whose voltage you do not know: read the plug, count its pins, find the key first.',
    ],
  },
  'header-limit': {
    title: "The header's limit",
    lines: ['Do not hang more on a header than its rated current: read it in the board manual first.'],
  },
  'usb-keying': {
    title: 'Internal USB plugs',
    lines: [
      'An internal USB plug turned round or shifted by a pin puts 5 V where it does not belong and can destroy the port.',
      'Line up the blocked hole of the plug with the missing pin; never push it on by feel.',
    ],
  },
  'leave-it-failing': {
    title: 'Leave it as it is',
    lines: ['While it fails, look first: a restart can hide the fault until the next time.'],
  },
  'mind-the-key': {
    title: 'Mind the key',
    lines: ['The plug fits one way: line up its key or its arrow with pin 1. Do not force it.'],
  },
}

/**
 * A caution by id; an id that has no words of its own is still shown, never dropped.
 * @param done whether the step beside it says already what is to be done
 */
export function caution(id: string, done = false): CautionText {
  const words = entry(CAUTIONS, id)
  if (words) {
    const { title, deed, lines } = words
    return { id, title, lines: deed === undefined || done ? lines : [deed, ...lines] }
  }
  return {
    id,
    title: 'Take care',
    lines: [`${id.replace(/-/g, ' ').replace(/^./, (c) => c.toUpperCase())}.`],
  }
}
