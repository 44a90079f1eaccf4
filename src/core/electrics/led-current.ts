/** What addressable lights draw: by channel current, at full white, at mixed effects; and how many a limit carries. */

/** Milliamps of one colour at full, for the usual part and for a low-current one. @source LED strip best-practice pages; distributor listing */
export const CHANNEL_MA = { usual: 20, middle: 16, low: 12 } as const
/** Mixed effects, milliamps a LED. @source LED strip best-practice pages, rule of thumb */
export const MIXED_MA = 20
/** Share of full white that mixed effects draw. */
export const MIXED_SHARE = 1 / 3

/** One LED with its three colours at full, milliamps. */
export const whiteMa = (channelMa: number = CHANNEL_MA.usual): number => 3 * channelMa

/** Amps of so many LEDs. @param perLedMa milliamps of one */
export const ledAmps = (leds: number, perLedMa: number = whiteMa()): number => (leds * perLedMa) / 1000

/** How many LEDs a limit in amps carries. */
export const ledsThatFit = (amps: number, perLedMa: number = whiteMa()): number =>
  Math.floor((amps * 1000) / perLedMa + 1e-6)
