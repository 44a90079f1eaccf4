/**
 * A job that goes by a script, for tests of the front ends: it asks what it is given, one after the other, whatever is
 * answered, and keeps what was said. It refuses what a real one refuses, and takes answers back.
 */
import type { Edit } from '../../src/core/bench/edit.ts'
import type { Ask, Do, End, Note, Prompt, Suspect, Verdict } from '../../src/core/checks/prompt.ts'
import type { Refusal, Reply, Session, TrailEntry, View, Why } from '../../src/job/view.ts'
import { archivePlan } from './archive-plan.ts'

export interface ScriptStep {
  readonly told?: readonly (Note | Verdict)[]
  readonly prompt: Prompt
  readonly suspects?: readonly Suspect[]
}

export interface FakeSession extends Session {
  /** What was said and taken, in order. */
  readonly said: Reply[]
  closed(): number
}

export const suspectUnplugged: Suspect = {
  faults: [{ at: 'F3.light', mode: 'unplugged' }],
  p: 0.62,
  alike: [],
}
export const suspectPort: Suspect = {
  faults: [{ at: 'H1.3', mode: 'dead' }],
  p: 0.24,
  alike: [{ faults: [{ at: 'F3.light', mode: 'open-DATA' }] }],
}

export const askMany = {
  show: 'ask' as const,
  id: 'which-dark',
  stage: 'scope',
  power: 'on',
  hands: 'out',
  minutes: 1,
  tools: [],
  error: 0.05,
  many: true,
  marks: ['F1', 'F2', 'F3', 'F4'].flatMap((at) =>
    ['dark', 'part'].map((value) => ({ id: `${at}=${value}`, observe: { what: 'lit' as const, at }, value })),
  ),
} satisfies Ask

export const askSince = {
  show: 'ask' as const,
  id: 'since',
  stage: 'scope',
  power: 'on',
  hands: 'out',
  minutes: 0.5,
  tools: [],
  error: 0.2,
  many: false,
  about: 'since',
  of: ['lights-dark'],
  choices: ['new', 'changed', 'suddenly'],
} satisfies Ask

export const askLit = {
  show: 'ask' as const,
  id: 'lit-F3',
  stage: 'check',
  power: 'on',
  hands: 'out',
  minutes: 1,
  tools: [],
  error: 0.05,
  many: false,
  observe: [{ what: 'lit', at: 'F3' }],
  answers: ['dark', 'part', 'whole', 'flicker'].map((value) => ({ id: value, means: [value] })),
} satisfies Ask

export const askSeated = {
  ...askLit,
  id: 'seated-F3.light',
  power: 'off',
  hands: 'in',
  minutes: 2,
  observe: [{ what: 'seated', at: 'F3.light' }],
  answers: ['yes', 'no', 'doubtful'].map((value) => ({ id: value, means: [value] })),
} satisfies Ask

export const doPowerOff: Do = {
  show: 'do',
  id: 'power-off',
  purpose: 'gate',
  edits: [{ do: 'power', to: 'off' }],
  power: 'off',
  hands: 'out',
  minutes: 2,
  cautions: ['shut-down-full', 'live-plugging', 'never-open-supply', 'five-volt-on-twelve', 'manuals-first'],
}

export const doReseat: Do = {
  show: 'do',
  id: 'reseat-F3.light',
  purpose: 'repair',
  edits: [{ do: 'reseat', plug: 'F3.light' }],
  power: 'off',
  hands: 'in',
  minutes: 2,
  cautions: ['pull-by-the-plug'],
}

const doPowerOn: Do = {
  ...doPowerOff,
  id: 'power-on',
  edits: [{ do: 'power', to: 'on' }],
  power: 'on',
  cautions: ['blades'],
}

export const verdict: Verdict = {
  show: 'verdict',
  suspects: [suspectUnplugged, suspectPort],
  repair: { id: 'reseat-F3.light', edits: [{ do: 'reseat', plug: 'F3.light' }] },
}

/** Lights dead on one fan, from the first question to the proof. */
export const lightsScript: readonly ScriptStep[] = [
  { prompt: askMany },
  { prompt: askSince },
  {
    told: [{ show: 'note', kind: 'cross-check', facts: { what: 'fed', at: 'F3', from: 'H1' } }],
    prompt: askLit,
    suspects: [suspectUnplugged, suspectPort],
  },
  { prompt: doPowerOff, suspects: [suspectUnplugged, suspectPort] },
  { prompt: askSeated, suspects: [suspectUnplugged, suspectPort] },
  { told: [verdict], prompt: doReseat, suspects: [suspectUnplugged, suspectPort] },
  { prompt: doPowerOn, suspects: [suspectUnplugged] },
  { prompt: { ...askLit, id: 'proof-F3', stage: 'proof' }, suspects: [suspectUnplugged] },
]

/** Whether a reply fits what is asked, as a real job checks it. */
function refuse(prompt: Prompt, reply: Reply): Refusal | undefined {
  if (reply.say === 'done')
    return prompt.show === 'do' ? undefined : { problem: 'not-a-do', expected: ['answer'] }
  if (reply.say === 'unsure' && prompt.show === 'do') return { problem: 'not-an-ask', expected: ['done'] }
  if (reply.say !== 'answer') return undefined
  if (prompt.show === 'do') return { problem: 'not-an-ask', expected: ['done'] }
  const ids = prompt.many
    ? prompt.marks.map((m) => m.id)
    : 'about' in prompt
      ? prompt.choices
      : prompt.answers.map((a) => a.id)
  if (reply.ids.some((id) => !ids.includes(id))) return { problem: 'unknown-answer', expected: ids }
  if (!prompt.many && reply.ids.length !== 1) return { problem: 'one-answer', expected: ids }
  return undefined
}

export function fakeSession(
  script: readonly ScriptStep[] = lightsScript,
  over: Partial<View> = {},
): FakeSession {
  const said: Reply[] = []
  let at = 0
  let trail: TrailEntry[] = []
  let inForce: Edit[] = []
  let power: 'on' | 'off' = 'on'
  let end: End | null = null
  let closed = 0

  const minutes = () => trail.filter((e) => !e.undone).reduce((sum, e) => sum + e.prompt.minutes, 0)
  const finish = (outcome: End['outcome']) => {
    end = {
      show: 'end',
      outcome,
      suspects: script[Math.min(at, script.length - 1)]?.suspects ?? [],
      minutes: minutes(),
    }
  }

  const view = (): View => {
    const step = script[at]
    const prompt = end === null ? (step?.prompt ?? null) : null
    return {
      plan: archivePlan,
      symptom: 'lights-dark',
      symptoms: ['lights-dark'],
      queued: [],
      log: 'archive-lights-dark.job.ndjson',
      state: prompt === null ? 'ended' : `${prompt.show === 'ask' ? prompt.stage : prompt.purpose}`,
      power,
      hands: prompt?.hands ?? 'out',
      inForce,
      done: inForce,
      told: end === null ? (step?.told ?? []) : [],
      prompt,
      end,
      trail,
      suspects: step?.suspects ?? [],
      left: step?.suspects?.length ?? 0,
      findings: [],
      path: [
        { ref: 'supply.SA.1', kind: 'part', here: false, state: 'planned' },
        { ref: 'H1', kind: 'part', here: false, state: 'planned' },
        { ref: 'F3.light', kind: 'joint', here: true, state: 'suspect' },
        { ref: 'F3', kind: 'part', here: false, state: 'planned' },
      ],
      minutes: minutes(),
      canUndo: trail.some((e) => !e.undone),
      walk: null,
      opened: null,
      who: null,
      folded: false,
      ...over,
    }
  }

  const why = (): Why => ({
    expectedMinutes: 6.5,
    others: [{ id: 'swap', what: 'swap F2.light F3.light', expectedMinutes: 8 }],
    replies: [
      { id: 'dark', p: 0.7, suspects: [suspectUnplugged, suspectPort] },
      { id: 'whole', p: 0.3, suspects: [suspectPort] },
    ],
    suspects: [
      { suspect: suspectUnplugged, speaksFor: [{ seq: 1, decibans: 12 }], speaksAgainst: [] },
      { suspect: suspectPort, speaksFor: [], speaksAgainst: [{ seq: 1, decibans: -4 }] },
    ],
  })

  function undo(): Refusal | undefined {
    const last = trail.findLastIndex((e) => !e.undone)
    if (last < 0) return { problem: 'nothing-to-undo', expected: [] }
    trail = trail.map((e, i) => (i === last ? { ...e, undone: true } : e))
    at--
    end = null
    return undefined
  }

  const takes = (seq: number): number[] =>
    trail
      .filter((e) => !e.undone && e.seq >= seq)
      .map((e) => e.seq)
      .reverse()

  /** A script knows one order only: all that came after goes too. */
  function undoTo(seq: number | undefined): Refusal | undefined {
    const count = seq === undefined ? 1 : takes(seq).length
    for (let i = 1; i < count; i++) undo()
    return undo()
  }

  function step(prompt: Prompt, reply: Reply): void {
    const given = reply.say === 'answer' ? reply.ids : (reply.say as 'done' | 'unsure' | 'cannot')
    trail = [...trail, { seq: trail.length + 1, prompt, reply: given, undone: false, notes: [] }]
    if (prompt.show === 'do' && reply.say === 'done')
      for (const edit of prompt.edits)
        if (edit.do === 'power') power = edit.to
        else if (prompt.purpose !== 'restore') inForce = [...inForce, edit]
    at++
    if (at >= script.length) finish('fixed')
  }

  async function reply(said_: Reply): Promise<{ ok: true } | { ok: false; refusal: Refusal }> {
    const { prompt } = view()
    if (prompt === null) return { ok: false, refusal: { problem: 'ended', expected: [] } }
    const refusal = said_.say === 'undo' ? undoTo(said_.seq) : refuse(prompt, said_)
    if (refusal) return { ok: false, refusal }
    said.push(said_)
    if (said_.say === 'leave') finish('left')
    else if (said_.say === 'hand-over') finish('handed-over')
    else if (said_.say === 'note')
      trail = trail.map((e, i) => (i === trail.length - 1 ? { ...e, notes: [...e.notes, said_.text] } : e))
    else if (said_.say !== 'undo' && said_.say !== 'read') step(prompt, said_)
    return { ok: true }
  }

  return {
    said,
    closed: () => closed,
    view,
    why,
    ahead: () => false,
    without: (seq) => ({ takes: takes(seq), suspects: [suspectPort] }),
    reply,
    close: async () => {
      closed++
    },
  }
}
