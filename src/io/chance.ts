/** Chance, for who gave no number of their own. Everything further in gets it as a number. */
import { randomInt } from 'node:crypto'

/** A whole number from 1 to `most`. */
export const anyNumber = (most: number): number => randomInt(1, most + 1)
