/** The connector that a measurement is made at. */
import type { Line } from '../text/line.ts'
import type { Model } from '../views/model.ts'

export const hasPicture = (_model: Model): boolean => false
export const connectorLines = (_model: Model, _columns: number, _most: number): Line[] => []
