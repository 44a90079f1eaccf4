/** The wiring of the whole build as a tree from supply and board outwards, filtered by what was typed. */
import { leadsNow } from '../../core/bench/leads-now.ts'
import { allPorts } from '../../core/plan/ports.ts'
import { BLANK, type Line, line, span } from '../text/line.ts'
import { type Model, marksOf, say } from './model.ts'

interface Node {
  readonly text: string
  readonly tone: 'plain' | 'strong' | 'dim'
  readonly below: readonly Node[]
}

const partOf = (ref: string): string => ref.split('.')[0] ?? ref

/** Which plug is where now, as far as the job knows. */
function leadsOf({ view: { plan, done } }: Model): {
  plug: string
  socket: string | null
  state: 'planned' | 'moved' | 'unplugged'
}[] {
  const planned = leadsNow(plan, [])
  return [...leadsNow(plan, done)].map(([plug, socket]) => ({
    plug,
    socket,
    state: socket === null ? 'unplugged' : socket === planned.get(plug) ? 'planned' : 'moved',
  }))
}

/** The whole build; each plug under the socket it is in, each part's sockets under its plug. */
export function wiringLines(model: Model, columns: number): Line[] {
  const { plan } = model.view
  const marks = marksOf(model)
  const leads = leadsOf(model)
  const ports = allPorts(plan)
  const here = model.view.path.find((s) => s.here)?.ref
  const shown = new Set<string>()
  const name = (ref: string): string => say(model, ref)
  const marked = (ref: string): string => (ref === here ? marks.here.join(name(ref)) : name(ref))
  const called = new Set<string>()
  /** What it is and where, behind its plug; what it is only where it comes first. */
  const about = (part: string): string => {
    const kind = called.has(part) ? '' : model.language.kind(part, model.view)
    called.add(part)
    const said = [kind, plan.parts.find((p) => p.id === part)?.at ?? ''].filter((text) => text !== '')
    return said.length > 0 ? ` (${say(model, said.join(', '))})` : ''
  }
  const sockets = (part: string): readonly Node[] => {
    if (shown.has(part)) return []
    shown.add(part)
    return ports.filter((p) => p.part === part && p.gender === 'socket').flatMap((p) => socketNode(p.ref))
  }
  const socketNode = (ref: string): Node[] => {
    const plugs = leads.filter((l) => l.socket === ref)
    if (plugs.length === 0) return []
    return plugs.map(({ plug, state }) => ({
      text: `${marked(ref)} ${marks.joint[state]} ${marked(plug)}${about(partOf(plug))}${state === 'moved' ? `, ${model.words.wiring.moved}` : ''}`,
      tone: ref === here || plug === here ? 'strong' : 'plain',
      below: sockets(partOf(plug)),
    }))
  }
  const loose = leads.filter((l) => l.socket === null)
  const roots: Node[] = ['supply', 'board'].map((part) => ({
    text: say(model, model.language.part(part, model.view)),
    tone: 'strong' as const,
    below: sockets(part),
  }))
  // What hangs on nothing (a hub whose own lead is pulled) is a tree of its own.
  for (const { id } of plan.parts) {
    const below =
      shown.has(id) || !leads.some((l) => l.socket !== null && partOf(l.socket) === id) ? [] : sockets(id)
    if (below.length > 0)
      roots.push({ text: say(model, model.language.part(id, model.view)), tone: 'strong', below })
  }
  const lines = roots.flatMap((root) => [...treeLines(model, root), BLANK])
  const hanging = loose.map((l) =>
    line(
      span(`${marks.joint.unplugged} ${name(l.plug)}: ${say(model, model.words.wiring.unplugged)}`, 'strong'),
    ),
  )
  const wanted = model.cursor.filter.trim().toLocaleLowerCase()
  const all = [...hanging, ...lines]
  const kept =
    wanted === ''
      ? all
      : all.filter((l) =>
          l
            .map((s) => s.text)
            .join('')
            .toLocaleLowerCase()
            .includes(wanted),
        )
  return (kept.length > 0 ? kept : [line(span(say(model, model.words.nothingMatches), 'dim'))]).map((l) =>
    l.map((s) => ({ ...s, text: s.text.slice(0, columns) })),
  )
}

function treeLines(model: Model, node: Node, lead = '', under = ''): Line[] {
  const { box } = marksOf(model)
  const [first, ...rest] = [line(span(lead, 'dim'), span(node.text, node.tone))]
  return [
    first ?? BLANK,
    ...rest,
    ...node.below.flatMap((child, i) => {
      const last = i === node.below.length - 1
      return treeLines(
        model,
        child,
        `${under}${last ? box.last : box.tee}${box.h} `,
        `${under}${last ? ' ' : box.v}  `,
      )
    }),
  ]
}
