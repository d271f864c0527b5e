/**
 * Half of a two-sided 95 % interval in standard deviations: the 97.5 % quantile of the normal distribution, 1.959964,
 * to the two decimals that are in common use (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1).
 */
export const Z_95 = 1.96;
