/**
 * A machine's own configuration drawn as a Mermaid state chart. Groups of states are laid flat, since Mermaid draws no
 * arrow from inside one group to inside another; what a whole group takes leaves from "any of …".
 */

interface Arrow {
  readonly target?: string | readonly string[]
  readonly guard?: unknown
}

export interface StateConfig {
  readonly id?: string
  readonly initial?: unknown
  readonly type?: string
  readonly states?: Readonly<Record<string, StateConfig>>
  readonly on?: Readonly<Record<string, unknown>>
  readonly always?: unknown
}

interface Node {
  readonly path: readonly string[]
  readonly config: StateConfig
}

const nodesOf = (config: StateConfig, path: readonly string[] = []): readonly Node[] => [
  { path, config },
  ...Object.entries(config.states ?? {}).flatMap(([name, state]) => nodesOf(state, [...path, name])),
]

const guardText = (guard: unknown): string => {
  if (typeof guard === 'string') return guard
  if (typeof guard !== 'object' || guard === null || !('type' in guard)) return ''
  const params =
    'params' in guard && typeof guard.params === 'object' ? Object.values(guard.params ?? {}) : []
  return [String(guard.type), ...params].join(' ')
}

const arrows = (config: unknown): readonly Arrow[] => {
  if (config === undefined) return []
  if (typeof config === 'string') return [{ target: config }]
  if (Array.isArray(config)) return config.flatMap(arrows)
  return [config as Arrow]
}

/** Where a target leads, from the node that names it: `#id.a.b`, `.child`, `sibling` or `sibling.child`. */
function resolve(nodes: readonly Node[], from: Node, target: string): readonly string[] {
  const [head = '', ...rest] = target.split('.')
  const base = head.startsWith('#')
    ? (nodes.find((n) => n.config.id === head.slice(1))?.path ?? [head.slice(1)])
    : head === ''
      ? from.path
      : [...from.path.slice(0, -1), head]
  return [...base, ...rest]
}

/** Follows initial states down to the one that is really entered. */
function entered(nodes: readonly Node[], path: readonly string[]): readonly string[] {
  const node = nodes.find((n) => n.path.join('.') === path.join('.'))
  const initial = node?.config.initial
  return typeof initial === 'string' ? entered(nodes, [...path, initial]) : path
}

export interface Drawing {
  /** Group whose states are drawn, by its path, such as `work`. */
  readonly under: string
  /** Groups that are drawn as one box. */
  readonly folded: readonly string[]
}

const name = (path: string): string => path.replace(/[^A-Za-z0-9]/g, '_')

/** The lines of a `stateDiagram-v2`, without the fence around them. */
export function stateChart(machine: StateConfig, { under, folded }: Drawing): readonly string[] {
  const nodes = nodesOf(machine)
  const start = under === '' ? [] : under.split('.')
  const cut = (path: readonly string[]): string => {
    const text = path.join('.')
    const fold = folded.find((f) => text === f || text.startsWith(`${f}.`))
    const shown = fold ?? text
    return under !== '' && shown.startsWith(`${under}.`) ? shown.slice(under.length + 1) : shown
  }
  const inside = (path: readonly string[]): boolean => under === '' || path.join('.').startsWith(`${under}.`)
  const isFolded = (path: readonly string[]): boolean =>
    folded.some((f) => path.join('.').startsWith(`${f}.`))
  const edges = new Map<string, { from: string; to: string; says: string[] }>()
  const names = new Map<string, string>()
  const add = (from: string, to: string, says: string): void => {
    for (const end of [from, to]) names.set(name(end), end)
    const key = `${from} ${to}`
    const edge = edges.get(key) ?? { from, to, says: [] }
    if (says !== '' && !edge.says.includes(says)) edge.says.push(says)
    edges.set(key, edge)
  }
  for (const node of nodes) {
    const isWhole = node.path.join('.') === under
    if (!(isWhole || inside(node.path)) || isFolded(node.path)) continue
    const own = isWhole ? 'them' : cut(node.path)
    const isGroup = node.config.states !== undefined && !folded.includes(node.path.join('.'))
    const events = [...Object.entries(node.config.on ?? {}), ['', node.config.always] as const]
    for (const [event, config] of events) {
      for (const { target, guard } of arrows(config)) {
        if (target === undefined) continue
        const to = entered(nodes, resolve(nodes, node, [target].flat()[0] ?? ''))
        const when = guardText(guard)
        const from = isGroup ? `any of ${own}` : own
        if (cut(to) !== own) add(from, cut(to), [event, when && `if ${when}`].filter((t) => t).join(' '))
      }
    }
  }
  const first = cut(entered(nodes, start))
  return [
    'stateDiagram-v2',
    ...[...names].map(([id, text]) => `  state "${text}" as ${id}`),
    ...(names.has(name(first)) ? [`  [*] --> ${name(first)}`] : []),
    ...[...edges.values()].map(
      ({ from, to, says }) =>
        `  ${name(from)} --> ${name(to)}${says.length > 0 ? ` : ${says.join(', ')}` : ''}`,
    ),
  ]
}
