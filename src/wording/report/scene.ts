/** What names are drawn from when a log's plan cannot be read any more: an empty build, so that references stand for themselves. */
import type { Plan } from '../../core/plan/plan.ts'
import type { Scene } from '../language.ts'

const emptyPlan = (build: string): Plan => ({
  build,
  supply: { leads: [] },
  board: { fanHeaders: [], lightHeaders: [], usbHeaders: [], beforeHost: 'dark' },
  parts: [],
  leads: [],
  settings: {
    headers: {},
    channels: {},
    host: { program: 'absent', globalEffect: 'off' },
    ports: {},
    celsius: 25,
  },
  lightOrder: [],
  readings: [],
  spares: [],
  places: new Map(),
  assumed: new Set(),
})

export const sceneOf = (plan: Plan | undefined, build: string): Scene => ({
  plan: plan ?? emptyPlan(build),
})
