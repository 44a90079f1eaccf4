/** Before the id of a job that is in a store, where else the path of its log would stand. */
export const STORE_LOG = 'store:'
