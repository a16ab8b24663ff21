/** log 2 in two parts; the first has 21 trailing zero bits, so that whole multiples of it are exact. */
export const ln2High = 6.9314718036912381649e-1;
/** What log 2 is beyond its first part. */
export const ln2Low = 1.90821492927058770002e-10;
