/** What addressable lights draw at mixed effects, against the full white that plans give. */

/** Share of full white. @source LED strip best-practice pages, rule of thumb: 20 of 60 mA a LED */
export const MIXED_SHARE = 1 / 3
