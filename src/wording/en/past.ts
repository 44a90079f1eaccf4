/**
 * Questions about the past and about what is at hand, and the guide's, with their answers. Each names the thing that it is
 * about: who has just come to the bench does not know what "it" is.
 */
import type { About, Ask } from '../../core/checks/prompt.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { Scene } from '../language.ts'
import { leadName, partName, partOf, refName } from './names.ts'
import { type Look, look } from './questions/look.ts'
import { sentence } from './values.ts'
import { GUIDE } from './which-symptom.ts'

export type PastAsk = Extract<Ask, { about: About }>

interface Past {
  readonly since: string
  readonly worked: string
  readonly 'comes-and-goes': string
}

const past = (since: string, worked: string, comesAndGoes: string): Past => ({
  since,
  worked,
  'comes-and-goes': comesAndGoes,
})

const steady = (clause: string): string => `${clause} all the time, or only now and then?`

/** By symptom. */
const OF: Readonly<Record<string, Past>> = {
  'lights-dark': past(
    'When did the lights go dark?',
    'Have these lights ever been lit in this build?',
    steady('Are the lights dark'),
  ),
  'fan-still': past(
    'When did the fan stop turning?',
    'Has the fan ever turned in this build?',
    steady('Does the fan stand still'),
  ),
  'zero-rpm': past(
    'When did the reading of 0 RPM begin?',
    'Has a right speed ever been shown there in this build?',
    steady('Is 0 RPM shown'),
  ),
  'lights-stuck': past(
    'When did the lights begin to ignore what is set?',
    'Have these lights ever followed what is set, in this build?',
    steady('Do the lights ignore what is set'),
  ),
  'lights-order': past(
    'When did the lights begin to run in the wrong order, or only in part?',
    'Have these lights ever run right in this build?',
    steady('Do the lights run wrong'),
  ),
  'wrong-colours': past(
    'When did the wrong colours begin?',
    'Have the colours ever been right in this build?',
    steady('Are the colours wrong'),
  ),
  'global-effect': past(
    'When did the one effect begin to run over everything?',
    'Have the lights ever shown what is set for each, in this build?',
    steady('Does the one effect run over everything'),
  ),
  'not-listed': past(
    'When did the hub or controller go missing?',
    'Has the hub or controller ever been found in this build?',
    steady('Is the hub or controller missing'),
  ),
  'fans-full': past(
    'When did the fans begin to run at full speed, or to ignore their setting?',
    'Have these fans ever followed their setting in this build?',
    steady('Do the fans ignore their setting'),
  ),
  'odd-reading': past(
    'When did the speed, or its reading, begin to be wrong?',
    'Have the speed and its reading ever been right in this build?',
    steady('Is the speed, or its reading, wrong'),
  ),
  'fans-hunting': past(
    'When did the fans begin to stop now and then, or to speed up and slow down?',
    'Have these fans ever run steadily in this build?',
    steady('Do the fans stop, or speed up and slow down,'),
  ),
  'lights-flicker': past(
    'When did the lights begin to flicker?',
    'Have these lights ever been steady in this build?',
    steady('Do the lights flicker'),
  ),
  alarm: past(
    'When was the alarm first shown?',
    'Has this build ever started without the alarm?',
    'Is the alarm shown at every start, or only now and then?',
  ),
  'all-dead': past(
    'When did everything go dead?',
    'Has anything ever turned or lit in this build?',
    steady('Is everything dead'),
  ),
  'works-then-stops': past(
    'When did the build begin to fail after a while?',
    'Has this build ever run without failing after a while?',
    'After a failure, does the build come right again by itself or after a restart?',
  ),
}

const ONE = past(
  'When did the fault begin?',
  'Has this build ever worked without the fault?',
  steady('Is the fault there'),
)
const SEVERAL = past(
  'When did these faults begin?',
  'Has this build ever worked without these faults?',
  steady('Are these faults there'),
)

const pastOf = (of: readonly string[] = []): Past =>
  of.length > 1 ? SEVERAL : (entry(OF, of[0] ?? '') ?? ONE)

const CHANGES = 'Cleaning, moving, an update or a closed cable cover count as changes.'

/** @param nameOf a symptom's name, for the guide */
export function pastQuestion(ask: PastAsk, scene: Scene, nameOf: (symptom: string) => string): Look {
  const at = ask.at ?? ''
  switch (ask.about) {
    case 'since':
      return look(pastOf(ask.of).since, CHANGES)
    case 'worked':
    case 'comes-and-goes':
      return look(pastOf(ask.of)[ask.about])
    case 'symptom': {
      const found = (ask.of ?? []).map(nameOf)
      return look(
        entry(GUIDE, at)?.ask ?? cleanName(at),
        ...(found.length === 0 ? [] : [`So far: ${found.join('; ')}.`]),
      )
    }
    case 'spare':
      return look(
        at
          ? `Is there a spare at hand, known to be good, for ${spareName(at, scene)}?`
          : 'Is there a spare at hand, known to be good?',
      )
    case 'tool':
      return look(at ? `Is there a ${cleanName(at)} at hand?` : 'Is the tool at hand?')
    case 'consent':
      return look(
        at
          ? `The next step touches ${consentName(at, scene)} and cannot simply be taken back. Go on?`
          : 'The next step cannot simply be taken back. Go on?',
      )
  }
}

const known = (at: string, scene: Scene): boolean =>
  at.includes('.') || at.includes('/') || partOf(at, scene) !== undefined || at === 'board' || at === 'supply'

const spareName = (at: string, scene: Scene): string =>
  at.includes('.') ? leadName(at, scene) : known(at, scene) ? partName(at, scene) : cleanName(at)

const consentName = (at: string, scene: Scene): string =>
  known(at, scene) ? refName(at, scene) : cleanName(at.replace(/-/g, ' '))

const CHOICE: Readonly<Record<string, string>> = {
  'since new': 'It is a new build',
  'since changed': 'After something was changed, opened, moved or updated',
  'since suddenly': 'Suddenly, with nothing changed',
  'worked never': 'No, never',
  'worked once': 'Yes, at some time',
  'comes-and-goes yes': 'Only now and then',
  'comes-and-goes no': 'All the time',
  yes: 'Yes',
  no: 'No',
}

/** The words of a choice, by its id. */
export function pastAnswer(ask: PastAsk, id: string, scene: Scene): string {
  const guide = ask.about === 'symptom' ? entry(GUIDE, ask.at ?? '')?.answers : undefined
  // What fails after a while is asked whether it comes right again.
  const key =
    ask.about === 'comes-and-goes' && ask.of?.join() === 'works-then-stops' ? id : `${ask.about} ${id}`
  return (
    (guide && entry(guide, id)) ??
    entry(CHOICE, key) ??
    entry(CHOICE, id) ??
    sentence(cleanName(id.replace(/-/g, ' ')), scene)
  )
}
