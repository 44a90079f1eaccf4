/** Waits for what is to be seen, however busy the machine: the runner's own way gives up after a second. */
import { vi } from 'vitest'

export const waitFor = (seen: () => void): Promise<void> => vi.waitFor(seen, { timeout: 50_000, interval: 5 })
