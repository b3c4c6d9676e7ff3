// @ts-check
/** The kitchen's clock on a device whose own may be wrong. */
import { keep, kept } from "./device.js";

const MINUTE = 60000;
const DAY = 24 * 60;

export class Clock {
  /**
   * @param {{midnight: number, date: string}} day midnight in seconds from the epoch, 0: unknown
   * @param {12|24} hours
   */
  constructor(day, hours) {
    const [year, month, date] = day.date.split("-").map(Number);
    this.midnight = day.midnight ? day.midnight * 1000 : new Date(year, month - 1, date).getTime();
    this.hours = hours;
    /** Milliseconds that the device's clock is behind the server's. */
    this.skew = Number(kept("skew") ?? 0);
    this.best = -Infinity;
  }

  /**
   * Take the server's time, as ISO 8601. What was long under way makes the device seem ahead, never
   * behind: so the message that was fastest counts.
   * @param {string} iso
   */
  heard(iso) {
    this.best = Math.max(this.best, Date.parse(iso) - Date.now());
    this.skew = this.best;
    keep("skew", String(Math.round(this.skew)));
  }

  /** Minutes after midnight of the planned day. */
  now() {
    return (Date.now() + this.skew - this.midnight) / MINUTE;
  }

  /** Minutes of a moment by the device's clock. @param {string} iso */
  minutes(iso) {
    return (Date.parse(iso) + this.skew - this.midnight) / MINUTE;
  }

  /** Clock text: 07:05 or 7:05 am. @param {number} minutes */
  text(minutes) {
    const minute = ((Math.floor(minutes) % DAY) + DAY) % DAY;
    const hour = Math.floor(minute / 60);
    const rest = String(minute % 60).padStart(2, "0");
    if (this.hours === 24) return `${String(hour).padStart(2, "0")}:${rest}`;
    return `${((hour + 11) % 12) + 1}:${rest} ${hour < 12 ? "am" : "pm"}`;
  }
}

/** Time left: 1:05:09, or 12:40. @param {number} minutes @returns {string} */
export function countdown(minutes) {
  const seconds = Math.max(0, Math.ceil(minutes * 60));
  const [hours, rest] = [Math.floor(seconds / 3600), seconds % 3600];
  const tail = String(rest % 60).padStart(2, "0");
  const middle = Math.floor(rest / 60);
  return hours ? `${hours}:${String(middle).padStart(2, "0")}:${tail}` : `${middle}:${tail}`;
}

/** Put values into a text: {time}. @param {string} text @param {Record<string, string|number>} values */
export function filled(text, values) {
  return text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
}

/** Time since. @param {number} minutes @param {Record<string, string>} words */
export function overdue(minutes, words) {
  return minutes < 1 ? words.now : filled(words.over, { minutes: Math.floor(minutes) });
}
