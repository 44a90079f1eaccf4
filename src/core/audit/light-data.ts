/**
 * Light data: whether it reaches every LED, in the planned order, in the planned count and colours, and who sends it.
 */
import type { Family } from './finding.ts'
import { lightChain } from './light-chain.ts'
import { lightHosts } from './light-hosts.ts'
import { lightProfile } from './light-profile.ts'

export const lightData: Family = {
  family: 'light data',
  rules: [...lightChain, ...lightProfile, ...lightHosts],
}
