/** Every flow there is, in the order in which a person is offered them. */
import { fanStill } from './fan-still.ts'
import { lightsDark } from './lights-dark.ts'
import { lightsStuck } from './lights-stuck.ts'
import type { Flow } from './shared/flow.ts'
import { zeroRpm } from './zero-rpm.ts'

export const flows: readonly Flow[] = [lightsDark, fanStill, zeroRpm, lightsStuck]

/** The flow of a symptom by its id, or undefined. */
export const flowOf = (id: string): Flow | undefined => flows.find((flow) => flow.id === id)
