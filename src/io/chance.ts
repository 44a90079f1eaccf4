/** Chance, for who gave no number of their own. Everything further in gets it as a number. */
import { randomBytes, randomInt } from 'node:crypto'

/** A whole number from 1 to `most`. */
export const anyNumber = (most: number): number => randomInt(1, most + 1)

/** 128 bits in hex: two of them are never the same. */
export const anyId = (): string => randomBytes(16).toString('hex')
