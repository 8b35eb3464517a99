/** The engine against the golden tables: every mode × output setting of both timer blocks. */
import { describe, expect, it } from "vitest";
import { fraction, toNumber } from "../../../shared-model/fraction.js";
import { channelWaveforms } from "../../../shared-model/waveforms/channel-waveforms.js";
import { eightBit } from "./golden-eight-bit.js";
import { type GoldenRow, readRows } from "./golden-rows.js";
import { sixteenBit } from "./golden-sixteen-bit.js";
import { chipAndTimer, snapshotOf } from "./snapshots.js";

const blocks = [...eightBit, ...sixteenBit];

for (const block of blocks) {
  const { chip, timer } = chipAndTimer(block.chip, block.timer);
  describe(`${block.chip} timer ${block.timer}: ${block.source}`, () => {
    it.each(readRows(block).map((row) => [row.line, row] as const))("%s", (_, row) => {
      const channel = timer.channels.find((candidate) => candidate.letter === row.unit)!;
      const snapshot = snapshotOf(timer, {
        mode: row.mode,
        clock: row.clock,
        com: { [row.unit]: row.com },
        values: row.values,
      });
      const waveforms = channelWaveforms(chip, timer, snapshot, channel, 16_000_000);
      expect(waveforms).toHaveLength(1);
      expect(brief(waveforms[0]!, row)).toEqual(row.expected);
    });
  });
}

/** The waveform in the table's own terms; frequency to as many digits as the table prints. */
function brief(waveform: ReturnType<typeof channelWaveforms>[number], row: GoldenRow): unknown {
  if (waveform.kind === "pulse") {
    expect(waveform.driver).toBe("timer");
    expect([waveform.highTicks?.min, waveform.periodTicks?.min]).toEqual([
      waveform.highTicks?.max,
      waveform.periodTicks?.max,
    ]);
    expect(waveform.duty).toEqual({
      min: fraction(waveform.highTicks!.min, waveform.periodTicks!.min),
      max: fraction(waveform.highTicks!.min, waveform.periodTicks!.min),
    });
    const hz = toNumber(waveform.frequencyHz!.min);
    const digits = row.expected.kind === "pulse" ? row.expected.hz.replace(".", "").replace(/^0+/, "").length : 9;
    return {
      kind: "pulse",
      high: waveform.highTicks!.min,
      period: waveform.periodTicks!.min,
      hz:
        row.expected.kind === "pulse" && Number(hz.toPrecision(Math.max(digits, 1))) === Number(row.expected.hz)
          ? row.expected.hz
          : String(hz),
      steps: waveform.steps,
    };
  }
  return waveform.kind === "level"
    ? { kind: "level", level: waveform.level, driver: waveform.driver }
    : { kind: waveform.kind };
}

describe("the tables themselves", () => {
  it("cover every mode with every output setting of channels A and B, on both blocks", () => {
    for (const [bits, modes] of [
      [8, 8],
      [16, 16],
    ] as const) {
      const seen = new Set(
        blocks
          .filter((block) => chipAndTimer(block.chip, block.timer).timer.bits === bits)
          .flatMap((block) => readRows(block).map((row) => `${row.mode} ${row.com}`)),
      );
      const wanted = Array.from({ length: modes * 4 }, (_, index) => `${index >> 2} ${index & 3}`);
      expect(wanted.filter((pair) => !seen.has(pair))).toEqual([]);
    }
    expect(blocks.flatMap(readRows).length).toBeGreaterThan(250);
  });
});
