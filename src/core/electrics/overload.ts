/** What becomes of a source that carries more than it may. The shares are judgement: common practice, no source. */

/** Up to this share over its limit a source sags; above it trips, or is damaged where nothing protects it. */
export const SAGS_UP_TO = 1.25

/** Sums of label figures carry no more digits than this; keeps 3 × 0.1 at 0.3. */
export const rounded = (figure: number): number => Math.round(figure * 1e6) / 1e6

/** Whether a figure is over its limit by more than rounding. */
export const isOver = (figure: number, limit: number): boolean => rounded(figure) > rounded(limit)
