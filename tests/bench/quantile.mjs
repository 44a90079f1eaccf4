/** The number under which so large a share of a list lies. @param q from 0 to 1 */
export const quantile = (list, q) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * q))]
