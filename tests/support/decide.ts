/** The decision on a dossier in one go; a job makes it in parts. */
import type { Assessment, Knowledge } from '../../src/core/infer/assess.ts'
import { chosenFrom, type Outlook, optionsFor } from '../../src/core/infer/decide.ts'
import type { Dossier } from '../../src/core/infer/dossier.ts'
import { whole } from '../../src/core/infer/parts.ts'

export const decide = (known: Knowledge, dossier: Dossier, assessment: Assessment): Outlook =>
  whole(chosenFrom(known, dossier, whole(optionsFor(known, dossier, assessment))))
