/**
 * Keeps the program small while it sits on a bench for hours. Left alone, the garbage of every answer is kept until a good
 * part of the machine's memory would be full; told so, V8 sweeps often. It costs time at each answer, and saves a third of the memory
 * (tests/bench/screen.mjs measures both).
 */
import { setFlagsFromString } from 'node:v8'

/** To be called early: what has grown by then stays. */
export function keepSmall(): void {
  // Space for new things is not doubled as it fills; the heap may grow by this share before all of it is swept.
  setFlagsFromString('--semi-space-growth-factor=1')
  setFlagsFromString('--heap-growing-percent=40')
}
