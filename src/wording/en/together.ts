/**
 * Names that stand together, in a sentence, a list or on a screen: what kind of part each is, is said once and not in
 * every row.
 */
import { cleanName } from '../clean.ts'
import type { RowName, Scene } from '../language.ts'
import { headerKind, kindOf, list, partName, partOf, placeOf, refName } from './names.ts'

/** No name has it: they are cleaned of control characters. */
const BETWEEN = '\u0000'

const plain = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/gu, '\\$&')

/**
 * What is read together names each part in full where it stands first, and by its id after that: "the input plug of fan
 * splitter Y2 (floor) loose, or the input plug of Y2 one pin off".
 */
export function fullOnce(texts: readonly string[], scene: Scene): string[] {
  let all = texts.join(BETWEEN)
  for (const { id } of scene.plan.parts) {
    const name = cleanName(id)
    // Most parts are named once or never: a large build has a thousand.
    if (all.indexOf(name) === all.lastIndexOf(name)) continue
    const full = partName(id, scene)
    // A sentence may begin with it.
    const tail = full.slice(1)
    const first = all.indexOf(tail)
    if (full === name || first < 0 || all.indexOf(tail, first + 1) < 0) continue
    const [letter = ''] = full
    const head = `[${plain(letter)}${plain(letter.toUpperCase())}]`
    const mention = new RegExp(`(?<![\\p{L}\\p{N}])${head}${plain(tail)}(?![\\p{L}\\p{N}_-])`, 'gu')
    let before = false
    all = all.replace(mention, (found) => {
      const shown = before ? name : found
      before = true
      return shown
    })
  }
  return all.split(BETWEEN)
}

/** Parts one after the other, the kind said once for those of one: "pump P1 and fans F4 (front) and F5 (front)". */
export function partNames(ids: readonly string[], scene: Scene): string {
  const runs: string[][] = []
  for (const id of ids) {
    const last = runs.at(-1)
    const kind = kindOf(id, scene)
    if (last?.[0] !== undefined && kind !== '' && kindOf(last[0], scene) === kind) last.push(id)
    else runs.push([id])
  }
  const bare = (id: string): string => cleanName(id) + placeOf(id, scene)
  return list(
    runs.map(([id = '', ...more]) =>
      more.length === 0 ? partName(id, scene) : `${kindOf(id, scene)}s ${list([id, ...more].map(bare))}`,
    ),
  )
}

/** The same for references of any sort. */
export const refNames = (refs: readonly string[], scene: Scene): string =>
  refs.every((ref) => partOf(ref, scene)) ? partNames(refs, scene) : list(refs.map((r) => refName(r, scene)))

/** A list of so many parts of one kind is about that kind: its question says which. */
const LIST = 3

/** The kind that most of them are of, if there are so many; where nearly all are of it, it need not be said. */
export function usualKind(refs: readonly string[], scene: Scene): string | undefined {
  const counts = new Map<string, number>()
  for (const ref of refs)
    if (partOf(ref, scene)) counts.set(kindOf(ref, scene), (counts.get(kindOf(ref, scene)) ?? 0) + 1)
  const [most] = [...counts].sort(([, a], [, b]) => b - a)
  return most && most[1] >= LIST ? most[0] : undefined
}

/** Places in a list below each other. The kind is left out where nearly all are of it, and said once for each part. */
export function rowNames(refs: readonly string[], scene: Scene): RowName[] {
  const usual = usualKind(refs, scene)
  const bare = (ref: string): string => cleanName(ref) + placeOf(ref, scene)
  const isUsual = (ref: string): boolean => partOf(ref, scene) !== undefined && kindOf(ref, scene) === usual
  const long = fullOnce(
    refs.map((ref) => (isUsual(ref) ? bare(ref) : refName(ref, scene))),
    scene,
  )
  const named = new Set<string>()
  return refs.map((ref, i) => {
    const id = ref.replace(/^(?:board|headers|channels)[./]/, '')
    const [part = ''] = id.split(/[./]/)
    const onBoard = /^(?:board|headers)[./]/.test(ref) ? headerKind(part, scene) : ''
    const key = onBoard ? `board.${part}` : part
    const kind =
      named.has(key) || isUsual(ref) ? '' : onBoard || kindOf(part, scene) || headerKind(part, scene)
    named.add(key)
    return { long: long[i] ?? '', short: cleanName(kind === '' ? id : `${kind} ${id}`), id: cleanName(id) }
  })
}
