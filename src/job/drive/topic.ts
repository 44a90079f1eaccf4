/** A topic of a flow's scoping as a question: a look over everything of a kind, or something about the past. */
import type { Topic } from '../../../flows/shared/flow.ts'
import { mapAsk } from '../../core/checks/maps.ts'
import type { Ask } from '../../core/checks/prompt.ts'
import { aboutAsk } from './about-ask.ts'
import type { Job } from './job.ts'

export const topicAsk = (job: Job, topic: Topic): Ask =>
  'map' in topic
    ? mapAsk(job.ground.build, [topic.map], 'scope')
    : aboutAsk(topic.about, 'scope', job.symptoms)
