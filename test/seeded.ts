import fc from "fast-check";

/** Property tests draw the same cases on every machine; ATHWART_TEST_SEED (a whole number) draws others, for looking further. */
const seed = Number(process.env.ATHWART_TEST_SEED ?? 20270406);
if (!Number.isInteger(seed)) throw new Error(`ATHWART_TEST_SEED is no whole number: ${process.env.ATHWART_TEST_SEED}`);
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
