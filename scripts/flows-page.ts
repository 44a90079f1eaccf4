/** Explores every flow and makes the page of them, for `docs-flows.mjs`. */
import { flows } from '../flows/all.ts'
import { flowsPage } from '../src/wording/flows-page.ts'
import { explore } from '../tests/support/explore.ts'
import { flowsReport } from '../tests/support/flows-report.ts'

export const page = (): string => flowsPage(flowsReport(flows.map(explore)))
