/**
 * The most points of one field that are decoded: twice the finest global ocean grid in common use (a twelfth of a degree, 9.3 million).
 * Their values take 160 MB while they are being read.
 */
export const MAX_GRIB_POINTS = 20_000_000;

/** The most fields that one message may hold; those seen hold two, or some hundreds at most (common practice). */
export const MAX_FIELDS_IN_MESSAGE = 10_000;

/** After so many messages whose bounds can't be trusted the rest of the file is given up (common practice). */
export const MAX_UNREADABLE_MESSAGES = 100;
