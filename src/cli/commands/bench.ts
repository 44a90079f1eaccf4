/**
 * `whichlead bench PLAN`: runs the model of a build with faults and after edits, and prints everything that would be
 * seen; or lists the single faults that the build can have. So the model can be checked from outside.
 */
import { type Build, compile } from '../../core/bench/build.ts'
import { type Edit, editText, parseEdit, powerAfter } from '../../core/bench/edit.ts'
import { everything } from '../../core/bench/everything.ts'
import type { Observable, Value } from '../../core/bench/observable.ts'
import { run as runBench } from '../../core/bench/run.ts'
import { applyEdit, asPlanned } from '../../core/bench/world.ts'
import { faultByName, faultsOf, type KnownFault } from '../../core/faults/catalogue.ts'
import { faultText, parseFault } from '../../core/faults/fault.ts'
import type { Plan } from '../../core/plan/plan.ts'
import type { Scene } from '../../wording/language.ts'
import type { ExitCode, Run, Shell } from '../command.ts'
import { near } from '../near.ts'
import { planFrom } from '../read-plan.ts'

interface Seen extends Observable {
  readonly value: Value
  /** Where a loose joint makes contact now and then: what is seen while it does. */
  readonly contact?: Value
}

function sightOf(build: Build, faults: readonly KnownFault[], edits: readonly Edit[]): Seen[] {
  const plants = faults.map((f) => f.plant)
  const broken = runBench(build, { plants, edits })
  const made = faults.some((f) => f.intermittent) ? runBench(build, { plants, edits, contact: true }) : broken
  return everything(build).flatMap((o) => {
    const value = broken.see(o)
    const contact = made.see(o)
    if (value === null) return contact === null ? [] : [{ ...o, value: 'none', contact }]
    return [{ ...o, value, ...(contact === null || contact === value ? {} : { contact }) }]
  })
}

function faultsFrom(texts: readonly string[], build: Build, shell: Shell): KnownFault[] | undefined {
  const known: KnownFault[] = []
  for (const text of texts) {
    const fault = parseFault(text)
    const found = fault && faultByName(build, fault)
    if (!found) {
      const all = faultsOf(build).map((f) => faultText(f.fault))
      shell.err(shell.language.program.say.badFault(text, near(text, all)))
      return undefined
    }
    known.push(found)
  }
  return known
}

/** Edits in order; one that names nothing of this build is a mistake, not a thing to skip. */
function editsFrom(texts: readonly string[], build: Build, shell: Shell): Edit[] | undefined {
  const world = asPlanned(build)
  const edits: Edit[] = []
  for (const text of texts) {
    const edit = parseEdit(text)
    if (edit === undefined || !applyEdit(build, world, edit)) {
      const { say } = shell.language.program
      shell.err(edit === undefined ? say.badEdit(text) : say.editNowhere(text))
      return undefined
    }
    edits.push(edit)
  }
  return edits
}

function listFaults(build: Build, asJson: boolean, scene: Scene, shell: Shell): void {
  const known = faultsOf(build)
  const sum = known.reduce((total, f) => total + f.weight, 0)
  const prior = (f: KnownFault): number => f.weight / sum
  if (asJson) {
    const faults = known.map((f) => ({
      at: f.fault.at,
      mode: f.fault.mode,
      prior: prior(f),
      family: f.family,
      intermittent: f.intermittent,
    }))
    shell.out(JSON.stringify({ plan: scene.plan.build, faults }, null, 1))
    return
  }
  for (const f of [...known].sort((a, b) => b.weight - a.weight))
    shell.out(
      `${(prior(f) * 100).toFixed(2).padStart(6)} %  ${faultText(f.fault).padEnd(40)} ${shell.language.fault(f.fault, scene).name}`,
    )
}

function tell(
  build: Build,
  faults: readonly KnownFault[],
  edits: readonly Edit[],
  asJson: boolean,
  shell: Shell,
): void {
  const seen = sightOf(build, faults, edits)
  const power = powerAfter(edits)
  if (asJson) {
    const head = {
      plan: build.plan.build,
      faults: faults.map((f) => ({ at: f.fault.at, mode: f.fault.mode })),
      edits: edits.map(editText),
      power,
    }
    shell.out(JSON.stringify({ ...head, sight: seen }, null, 1))
    return
  }
  const scene: Scene = { plan: build.plan }
  const { language } = shell
  for (const f of faults) shell.out(`${faultText(f.fault)}  ${language.fault(f.fault, scene).is}`)
  for (const e of edits) shell.out(`${editText(e)}  ${language.edit(e, scene)}`)
  for (const s of seen) {
    const words = (value: Value) => language.value(s, value, power, scene)
    const value = s.contact === undefined ? words(s.value) : `${words(s.value)} / ${words(s.contact)}`
    shell.out(`${s.what.padEnd(8)} ${s.at.padEnd(26)} ${value}`)
  }
}

export const run: Run = async (given, shell): Promise<ExitCode> => {
  const [path = ''] = given.arguments
  const plan: Plan | undefined = planFrom(path, shell)
  if (plan === undefined) return 2
  const build = compile(plan)
  const asJson = given.flags.has('json')
  if (given.flags.has('list-faults')) {
    listFaults(build, asJson, { plan }, shell)
    return 0
  }
  const faults = faultsFrom(given.lists.get('fault') ?? [], build, shell)
  const edits = faults && editsFrom(given.lists.get('edit') ?? [], build, shell)
  if (faults === undefined || edits === undefined) return 2
  tell(build, faults, edits, asJson, shell)
  return 0
}
