/**
 * Each fault mode under a technician's name, with its place: a short name for lists and one sentence for a verdict.
 * The tables are by where the fault sits and its mode; a mode that is missing here is still said, from its own words,
 * and a test fails.
 */

import type { Fault } from '../../core/faults/fault.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { FaultText, Scene } from '../language.ts'
import { AS_PLANNED } from './faults/as-planned.ts'
import { type Numbered, type Say, text } from './faults/fault-text.ts'
import { NUMBERED_PLUGS_AND_LEADS, PLUGS_AND_LEADS, supplyLead } from './faults/plugs-and-leads.ts'
import { NUMBERED_PARTS, PORTS_AND_PARTS } from './faults/ports-and-parts.ts'
import { ofSetting } from './faults/settings.ts'
import { refName } from './names.ts'
import { fullOnce } from './together.ts'
import { sentence } from './values.ts'

/** On a joint, a lead, a port or a part, by the mode. */
const PLACED: Readonly<Record<string, Say>> = { ...PLUGS_AND_LEADS, ...PORTS_AND_PARTS, ...AS_PLANNED }

const NUMBERED: Numbered = [...NUMBERED_PLUGS_AND_LEADS, ...NUMBERED_PARTS]

const WHOLE: Readonly<Record<string, FaultText>> = {
  'host/program:not-running': text(
    'lighting program not running',
    "The vendor's lighting program is not running, so nobody tells the lights what to show.",
  ),
  'host/global_effect:left-on': text(
    'one effect left on over all lights',
    'One effect over all lights was left on and overrides what is set for each.',
  ),
  'build:nothing-wrong': text('nothing is wrong', 'Nothing is wrong: the build does what it is set to do.'),
  'build:none-of-these': text(
    'none of what is known here',
    'None of the faults that the plan allows fits what was seen: the cause lies elsewhere, or the build differs from its plan.',
  ),
}

function ofPlace(fault: Fault, scene: Scene): FaultText | undefined {
  if (fault.at.includes('/')) return undefined
  const plain = entry(PLACED, fault.mode)
  if (plain) return plain(fault.at, scene, '')
  for (const [form, say] of NUMBERED) {
    const rest = form.exec(fault.mode)?.[1]
    if (rest !== undefined) return say(fault.at, scene, rest)
  }
  return undefined
}

/** The words of a fault, or undefined where this page has none for its mode. */
export function knownFault(fault: Fault, scene: Scene): FaultText | undefined {
  const found =
    entry(WHOLE, `${fault.at}:${fault.mode}`) ??
    supplyLead(fault.at, fault.mode, scene) ??
    ofSetting(fault, scene) ??
    ofPlace(fault, scene)
  const [name = '', is = ''] = [found?.name, found?.is].map((said = '') => fullOnce([said], scene)[0])
  return found && { name, is: sentence(is, scene) }
}

/** A fault in words; one without words of its own is said by its place and mode. */
export function faultWords(fault: Fault, scene: Scene): FaultText {
  const known = knownFault(fault, scene)
  if (known) return known
  const mode = cleanName(fault.mode.replace(/-/g, ' '))
  const at = refName(fault.at, scene)
  return text(`${at}: ${mode}`, `${sentence(at, scene)} has this fault: ${mode}.`)
}
