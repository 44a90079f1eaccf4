/**
 * Where every plug sits by what was really done, told from the plan and the edits alone. Says which edits make no
 * sense with hands at the bench: a plug pushed into a socket that is taken, one exchanged that hangs free.
 */
import type { Build } from '../../src/core/bench/build.ts'
import { type Edit, editText } from '../../src/core/bench/edit.ts'

export interface Wiring {
  /** Socket by plug, for those that sit somewhere. */
  readonly sits: ReadonlyMap<string, string>
  readonly power: 'on' | 'off'
}

export function plannedWiring(build: Build): Wiring {
  const sits = new Map<string, string>()
  build.plugs.forEach((plug) => {
    const socket = build.socketOf[plug] ?? -1
    const [from, to] = [build.ports[plug]?.ref, build.ports[socket]?.ref]
    if (from !== undefined && to !== undefined) sits.set(from, to)
  })
  return { sits, power: 'on' }
}

/** After one edit, or why it can't be done. */
function afterEdit({ sits, power }: Wiring, edit: Edit): Wiring | string {
  const next = new Map(sits)
  const nonsense = `${editText(edit)} where ${[...sits].map((s) => s.join(' → ')).join(', ')}, power ${power}`
  switch (edit.do) {
    case 'power':
      return edit.to === power ? nonsense : { sits, power: edit.to }
    case 'set':
      return power === 'on' ? { sits, power } : nonsense
    case 'plug': {
      const taken = [...sits].some(([plug, socket]) => socket === edit.socket && plug !== edit.plug)
      next.set(edit.plug, edit.socket)
      return taken || power === 'on' ? nonsense : { sits: next, power }
    }
    case 'unplug':
      return next.delete(edit.plug) && power === 'off' ? { sits: next, power } : nonsense
    case 'swap': {
      const [a, b] = [sits.get(edit.a), sits.get(edit.b)]
      if (a === undefined || b === undefined || power === 'on') return nonsense
      return { sits: next.set(edit.a, b).set(edit.b, a), power }
    }
    case 'reseat':
    case 'substitute':
    case 'free':
      return power === 'off' ? { sits, power } : nonsense
  }
}

/** After several edits, one after the other. @throws where one makes no sense */
export const afterEdits = (wiring: Wiring, edits: readonly Edit[]): Wiring =>
  edits.reduce((now, edit) => {
    const next = afterEdit(now, edit)
    if (typeof next === 'string') throw new Error(next)
    return next
  }, wiring)
