/**
 * The first boots that docs/examples keeps as logs: the demo build walked to the end by an invented person, with the
 * bench as the machine; once clean, once with three faults at once. The clock goes as the steps are reckoned.
 */

import type { Fault } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { PlanCopy } from '../../src/job/log/event.ts'
import { openJob } from '../../src/job/open.ts'
import type { Reply, Session } from '../../src/job/view.ts'
import { personAt } from './bench-person.ts'

export interface ExampleBoot {
  readonly name: string
  readonly faults: readonly Fault[]
  /** What the person cannot tell: the print behind the cover, say. */
  readonly unsure: readonly string[]
}

export const WHO = 'late shift'
export const WHERE = 'bench 3'

export const EXAMPLE_BOOTS: readonly ExampleBoot[] = [
  { name: 'first-boot-clean', faults: [], unsure: [] },
  {
    name: 'first-boot-three-faults',
    faults: [
      { at: 'F9.light', mode: 'open-DATA' },
      { at: 'F4.light', mode: 'swapped-with-F5.light' },
      { at: 'F10.motor', mode: 'open-CONTROL' },
    ],
    unsure: ['walk before-power leads C1 light'],
  },
]

const BEGIN = Date.parse('2026-03-02T08:30:00.000Z')
const MOST = 200

/** Walks one of them and writes its log. @throws where it does not come to an end */
export async function walkExample(
  { faults, unsure }: ExampleBoot,
  plan: Plan,
  copy: PlanCopy,
  file: string,
  tool: string,
): Promise<void> {
  let session: Session | undefined
  const clock = (): number => BEGIN + Math.round((session?.view().minutes ?? 0) * 60_000)
  const opening = await openJob({
    plan,
    copy,
    symptom: 'first-boot',
    log: { file },
    tool,
    clock,
    who: WHO,
    where: WHERE,
  })
  if (!opening.ok) throw new Error(`not opened: ${opening.trouble.kind}`)
  session = opening.session
  const person = personAt(plan, faults)
  for (let n = 0; n < MOST; n++) {
    const { prompt } = session.view()
    if (!prompt) break
    const reply: Reply =
      prompt.show === 'do'
        ? { say: 'done' }
        : unsure.includes(prompt.id)
          ? { say: 'unsure' }
          : person.answer(prompt)
    if (prompt.show === 'do') person.did(prompt.edits)
    const taken = await session.reply(reply)
    if (!taken.ok) throw new Error(`refused: ${taken.refusal.problem}`)
  }
  if (!session.view().end) throw new Error('the walk does not end')
  await session.close()
}
