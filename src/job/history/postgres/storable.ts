/** Texts as PostgreSQL takes them: without the character 0 and without halves of a pair, whatever stands in a name. */
export const storable = (text: string): string => text.replace(/\0|\p{Surrogate}/gu, '\uFFFD')
