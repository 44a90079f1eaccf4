import { describe, expect, it } from 'vitest'
import type { Edit } from '../../src/core/bench/edit.ts'
import { CAUTIONS } from '../../src/wording/en/cautions.ts'
import { english } from '../../src/wording/en/english.ts'
import { archivePlan } from '../support/archive-plan.ts'
import { doPowerOff, doReseat, verdict } from '../support/fake-session.ts'

const scene = { plan: archivePlan }
const edit = (e: Edit) => english.edit(e, scene)

describe('things to do, in words', () => {
  it.each<[Edit, string]>([
    [
      { do: 'power', to: 'off' },
      'Shut the machine down, switch the supply off and pull its lead out of the wall.',
    ],
    [
      { do: 'unplug', plug: 'F2.light' },
      'Pull the light plug of fan F2 (front-top) out of socket 2 of light hub H1 (behind the board tray).',
    ],
    [
      { do: 'plug', plug: 'F2.light', socket: 'H1.5' },
      'Move the light plug of fan F2 (front-top) from socket 2 of light hub H1 (behind the board tray) to socket 5 of H1; push it home.',
    ],
    [
      { do: 'swap', a: 'F2.motor', b: 'F3.motor' },
      'Exchange the motor plugs of fans F2 (front-top) and F3 (top-rear): put each into the socket of the other.',
    ],
    [
      { do: 'substitute', what: 'F2' },
      'Put another of the same type, known to be good, in place of fan F2 (front-top).',
    ],
    [
      { do: 'substitute', what: 'H1.usb' },
      'Use another lead, known to be good, in place of the USB lead of light hub H1 (behind the board tray).',
    ],
    [
      { do: 'free', part: 'F2' },
      'Turn the blades of fan F2 (front-top) by hand; take away what touches until nothing holds it back.',
    ],
    [
      { do: 'set', setting: 'headers/SYS1/drive', value: 'pwm' },
      'Set the drive mode of header SYS1 on the board to PWM (control over the fourth wire).',
    ],
    [
      { do: 'set', setting: 'headers/SYS1/curve', value: '[[30,40],[70,100]]' },
      'Set the fan curve of header SYS1 on the board to 30 °C: 40 %, 70 °C: 100 %.',
    ],
    [
      { do: 'set', setting: 'channels/H1/profile', value: '[8,8,8]' },
      'Set the LED counts of light hub H1 (behind the board tray) to 8, 8, 8.',
    ],
    [
      { do: 'set', setting: 'ports/board.U1.a/enabled', value: 'true' },
      'Switch row a of USB header U1 on the board on in the firmware.',
    ],
  ])('%o', (e, words) => {
    expect(edit(e)).toBe(words)
  })

  it('a supply lead is pushed home at the supply, a plug at its socket', () => {
    expect(edit({ do: 'reseat', plug: 'supply.SA' })).toContain('supply lead SA out at the supply')
    expect(edit({ do: 'reseat', plug: 'F3.light' })).toContain('home in socket 3 of light hub H1')
  })

  it('says where a plug sits now, once a hand has moved it', () => {
    const done = [{ do: 'swap', a: 'F2.light', b: 'F3.light' }] as const
    const moved = { plan: archivePlan, done }
    expect(english.edit({ do: 'unplug', plug: 'F2.light' }, moved)).toBe(
      'Pull the light plug of fan F2 (front-top) out of socket 3 of light hub H1 (behind the board tray).',
    )
    // Put back first, and then at home again.
    const turns = english.step({ ...doReseat, edits: [...done, ...doReseat.edits] }, moved).lines
    expect(turns[1]).toMatch(/^Push the light plug of fan F3 .*home in socket 3 of light hub H1/)
    expect(
      english.edit(
        { do: 'reseat', plug: 'F2.light' },
        { plan: archivePlan, done: [{ do: 'unplug', plug: 'F2.light' }] },
      ),
    ).toMatch(/^Push the light plug of fan F2 \(front-top\) home: /)
  })

  it('tells a step that was done from where things were before it', () => {
    const move = (socket: string) => ({
      ...doReseat,
      edits: [{ do: 'plug' as const, plug: 'F3.light', socket }],
    })
    const trail = [move('H1.4'), move('H1.3')].map((prompt, i) => ({
      seq: i + 1,
      prompt,
      reply: 'done' as const,
      undone: false,
      notes: [],
    }))
    const view = { plan: archivePlan, trail, done: trail.flatMap((e) => e.prompt.edits) }
    const said = trail.map((e) => english.trail(e, view))
    expect(said[0]).toMatch(/from socket 3 of light hub H1 .* to socket 4 of H1; push it home/)
    expect(said[1]).toMatch(/from socket 4 of light hub H1 .* to socket 3 of H1; push it home/)
  })

  it('one edit is the sentence itself, several are a list in their order', () => {
    expect(english.step(doReseat, scene).title).toMatch(/^Repair: push the light plug of fan F3/u)
    const two = english.step(
      { ...doReseat, purpose: 'restore', edits: [doReseat.edits[0]!, { do: 'unplug', plug: 'F1.light' }] },
      scene,
    )
    expect(two.title).toBe('Put things back as they were.')
    expect(two.lines).toHaveLength(2)
  })

  it('the verdict names cause, what cannot be told from it, and what would mend it', () => {
    const lines = english.verdict(verdict, scene).join('\n')
    expect(lines).toContain('Likely cause (62 %): The light plug of fan F3 (top-rear) is not plugged in.')
    expect(lines).toContain('What would mend it:')
    expect(lines).toContain('no check here tells them apart')
  })

  it('a look after what was done is no end of what can be mended', () => {
    const again = english.verdict({ ...verdict, repair: { id: 'mend nothing, 1.1', edits: [] } }, scene)
    expect(again.at(-1)).toBe('What was done so far may have mended it: that is looked at next.')
    expect(english.verdict({ ...verdict, repair: null }, scene).at(-1)).toBe(
      'There is nothing more that can be mended at this bench.',
    )
  })
})

describe('cautions', () => {
  // The order is that of desktop-PC service guides: shut down, supply switch, lead out, wait, discharge.
  it('tells the full shutdown in its order before the first reach into the case', () => {
    const { title, cautions } = english.step(doPowerOff, scene)
    const said = [title, ...(cautions[0]?.lines ?? [])].join(' ')
    const order = [
      /shut the machine down/i,
      /switch the supply off/i,
      /out of the wall/i,
      /wait until/i,
      /discharge/i,
    ]
    const places = order.map((o) => said.search(o))
    expect(places.every((p) => p >= 0)).toBe(true)
    expect(places).toEqual([...places].sort((a, b) => a - b))
    // Once each: what the title says is not said again below it.
    for (const [i, o] of order.entries()) if (i < 3) expect(said.match(new RegExp(o, 'giu'))).toHaveLength(1)
  })

  it('says what to do where the step beside it does not, with the same reasons below', () => {
    const [deed, ...reasons] = english.caution('shut-down-full').lines
    expect(deed).toMatch(/^Shut the machine down/u)
    expect(english.step(doPowerOff, scene).cautions[0]?.lines).toEqual(reasons)
    expect(english.step({ ...doReseat, cautions: ['shut-down-full'] }, scene).cautions[0]?.lines).toEqual([
      deed,
      ...reasons,
    ])
  })

  it('has words for every caution that a step carries', () => {
    for (const id of doPowerOff.cautions) expect(CAUTIONS[id]).toBeDefined()
    expect(english.caution('five-volt-on-twelve').lines.join(' ')).toMatch(/12 V header destroys/u)
    expect(english.caution('never-open-supply').lines.join(' ')).toMatch(/never open the supply/iu)
    expect(english.caution('live-plugging').lines.join(' ')).toMatch(/never plug or unplug/iu)
  })

  it('shows a caution even where it has no words for it', () => {
    expect(english.caution('hot-solder').lines).toEqual(['Hot solder.'])
  })
})
