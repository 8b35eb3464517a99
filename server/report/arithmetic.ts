/** How a frequency comes about, in the data sheet's form: `16 MHz / (2 · 32 · 248)`. */
import type { ReportedSignal } from "../../shared-model/report.js";
import { showClock } from "../look/show.js";

/**
 * The division that gives the frequency; null where period, prescaler or TOP are not single values or do not stand in one of
 * the data sheet's relations. Worked out from the numbers themselves, so that it can never contradict them.
 */
export function divisionOf(signal: ReportedSignal, clockHz: number): string | null {
  const { periodTicks, prescaler, top } = signal;
  if (periodTicks === null || prescaler === null || top === null || top.min !== top.max) return null;
  if (periodTicks.min !== periodTicks.max) return null;
  const counts = periodTicks.min / prescaler;
  const form = formOf(counts, top.min);
  return form === null ? null : `${showClock(clockHz)} / (${form.replace("N", String(prescaler))})`;
}

/** Ticks of the timer in one period, as a product with the prescaler `N`. */
function formOf(counts: number, top: number): string | null {
  if (counts === top + 1) return `N · ${top + 1}`;
  if (counts === 2 * top) return `2 · N · ${top}`;
  if (counts === 2 * (top + 1)) return `2 · N · ${top + 1}`;
  if (counts === 4 * top) return `4 · N · ${top}`;
  return null;
}
