/**
 * An instant by ship's time for a list of files: `Thu 8 Apr, 06:00`. The zone is `UTC-8` and its like, or an IANA name; instants are ISO
 * 8601. An instant or a zone that can't be read is given back as it came.
 */
export function shipTime(instant: string | null, zone: string): string {
  if (instant === null) return "no time";
  const at = Date.parse(instant);
  if (Number.isNaN(at)) return instant;
  const offset = /^UTC(?:([+-])(\d{1,2})(?::?(\d{2}))?)?$/.exec(zone);
  const shift = offset === null ? 0 : (offset[1] === "-" ? -1 : 1) * (Number(offset[2] ?? 0) * 60 + Number(offset[3] ?? 0)) * 60_000;
  try {
    const format = new Intl.DateTimeFormat("en-GB", {
      weekday: "short",
      day: "numeric",
      month: "short",
      hour: "2-digit",
      minute: "2-digit",
      hourCycle: "h23",
      timeZone: offset === null ? zone : "UTC",
    });
    const parts = new Map(format.formatToParts(at + shift).map(({ type, value }) => [type, value]));
    return `${parts.get("weekday")} ${parts.get("day")} ${parts.get("month")} ${parts.get("hour")}:${parts.get("minute")}`;
  } catch {
    return instant;
  }
}
