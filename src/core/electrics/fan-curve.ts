/** The duty that a temperature curve asks for: straight lines between its points, flat outside them. */

export type CurvePoint = readonly [celsius: number, duty: number]

/**
 * Duty at a temperature, in the unit of the curve's second figures. @param curve at least one point, temperatures rising
 * @source kernel hwmon driver page, multi-point curves
 */
export function dutyAt(curve: readonly CurvePoint[], celsius: number): number {
  const after = curve.findIndex(([at]) => at >= celsius)
  const last = curve.at(-1)
  if (after === -1) return last ? last[1] : 100
  const [t2, d2] = curve[after] as CurvePoint
  const before = curve[after - 1]
  if (!before || t2 === celsius) return d2
  const [t1, d1] = before
  return d1 + ((d2 - d1) * (celsius - t1)) / (t2 - t1)
}

/** The lowest duty anywhere on a curve. */
export const restDuty = (curve: readonly CurvePoint[]): number =>
  curve.reduce((least, [, duty]) => Math.min(least, duty), 100)

/** Whether hotter never means slower. */
export const isRising = (curve: readonly CurvePoint[]): boolean =>
  curve.every(([t, d], i) => {
    const before = curve[i - 1]
    return !before || (t > before[0] && d >= before[1])
  })
