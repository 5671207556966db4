/**
 * Sail table: a boat's speeds under sail as plain text, wind speeds across and true wind angles down, in knots and degrees, the way a
 * velocity-prediction certificate prints them.
 */
export * from "./parse-sail-table.ts";
