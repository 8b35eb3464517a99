/** Golden waveforms of the 8-bit timer block, by hand from the data sheet. See golden-rows.ts for the notation. */
import type { GoldenBlock } from "./golden-rows.js";

const sheet = "ATmega48A/PA/88A/PA/168A/PA/328/P data sheet, DS40002061";

export const eightBit: readonly GoldenBlock[] = [
  {
    // f = clk / (2 · N · 256): OCnx toggles once per run of the counter. Set and clear act once, then nothing changes.
    source: `${sheet}, 15.7.1 Normal Mode; tables 15-2, 15-5 (COM, non-PWM)`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      0 1 A 0 | A=0   | low port
      0 1 B 0 | B=99  | low port
      0 1 A 1 | A=0   | pulse 256 / 2*256, 31250 Hz, 1
      0 3 A 1 | A=127 | pulse 64*256 / 2*64*256, 488.28125 Hz, 1
      0 5 B 1 | B=255 | pulse 1024*256 / 2*1024*256, 30.517578125 Hz, 1
      0 2 A 2 | A=10  | low timer
      0 2 A 3 | A=10  | high timer
      0 2 B 2 | B=255 | low timer
      0 2 B 3 | B=0   | high timer
    `,
  },
  {
    // "fOCnx = fclk_I/O / (2 · N · (1 + OCRnx))"; "maximum frequency of fOC0 = fclk_I/O/2 when OCR0A is set to zero".
    source: `${sheet}, 15.7.2 Clear Timer on Compare Match (CTC) Mode; tables 15-2, 15-5`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      2 2 A 0 | A=249       | low port
      2 2 A 1 | A=249       | pulse 8*250 / 2*8*250, 4000 Hz, 1
      2 1 A 1 | A=0         | pulse 1 / 2*1, 8000000 Hz, 1
      2 1 A 1 | A=255       | pulse 256 / 2*256, 31250 Hz, 1
      2 3 A 1 | A=124       | pulse 64*125 / 2*64*125, 1000 Hz, 1
      2 3 A 2 | A=124       | low timer
      2 3 A 3 | A=124       | high timer
      2 3 B 0 | A=124 B=50  | low port
      2 3 B 1 | A=124 B=50  | pulse 64*125 / 2*64*125, 1000 Hz, 1
      2 3 B 1 | A=124 B=0   | pulse 64*125 / 2*64*125, 1000 Hz, 1
      2 3 B 1 | A=124 B=124 | pulse 64*125 / 2*64*125, 1000 Hz, 1
      2 3 B 1 | A=124 B=125 | ? timer
      2 3 B 2 | A=124 B=100 | low timer
      2 3 B 3 | A=124 B=100 | high timer
      2 3 B 2 | A=124 B=200 | ? timer
      2 3 B 3 | A=124 B=200 | ? timer
      2 1 B 1 | A=0 B=0     | pulse 1 / 2*1, 8000000 Hz, 1
      2 1 B 1 | A=0 B=1     | ? timer
    `,
  },
  {
    // "fOCnxPWM = fclk_I/O / (N · 256)"; BOTTOM gives "a narrow spike for each MAX+1 timer clock cycle", MAX "a
    // constantly high or low output". COM0A = 1 with WGM02 = 0: normal port operation; COM0B = 1: reserved.
    source: `${sheet}, 15.7.3 Fast PWM Mode; tables 15-3, 15-6 (COM, fast PWM)`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      3 3 A 0 | A=127 | low port
      3 3 A 1 | A=127 | low port
      3 3 B 0 | B=127 | low port
      3 3 B 1 | B=127 | unknown
      3 3 A 2 | A=0   | pulse 64*1 / 64*256, 976.5625 Hz, 256
      3 3 A 2 | A=1   | pulse 64*2 / 64*256, 976.5625 Hz, 256
      3 3 A 2 | A=127 | pulse 64*128 / 64*256, 976.5625 Hz, 256
      3 3 A 2 | A=254 | pulse 64*255 / 64*256, 976.5625 Hz, 256
      3 3 A 2 | A=255 | high timer
      3 3 A 3 | A=0   | pulse 64*255 / 64*256, 976.5625 Hz, 256
      3 3 A 3 | A=127 | pulse 64*128 / 64*256, 976.5625 Hz, 256
      3 3 A 3 | A=254 | pulse 64*1 / 64*256, 976.5625 Hz, 256
      3 3 A 3 | A=255 | low timer
      3 1 B 2 | B=63  | pulse 64 / 256, 62500 Hz, 256
      3 1 B 3 | B=63  | pulse 192 / 256, 62500 Hz, 256
      3 5 B 2 | B=0   | pulse 1024*1 / 1024*256, 61.03515625 Hz, 256
      3 5 B 2 | B=255 | high timer
      3 5 B 3 | B=255 | low timer
    `,
  },
  {
    // TOP = OCR0A: the counter runs 0 … OCR0A. Channel A sits at TOP by definition. COM0A = 1 toggles once per period:
    // "the waveform generated will have a maximum frequency of fOC0 = fclk_I/O/2 when OCR0A is set to zero".
    source: `${sheet}, 15.7.3 Fast PWM Mode, WGM02:0 = 7; tables 15-3, 15-6`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      7 2 A 0 | A=199       | low port
      7 2 A 1 | A=199       | pulse 8*200 / 2*8*200, 5000 Hz, 1
      7 1 A 1 | A=0         | pulse 1 / 2*1, 8000000 Hz, 1
      7 2 A 2 | A=199       | high timer
      7 2 A 3 | A=199       | low timer
      7 2 B 0 | A=199 B=49  | low port
      7 2 B 1 | A=199 B=49  | unknown
      7 2 B 2 | A=199 B=0   | pulse 8*1 / 8*200, 10000 Hz, 200
      7 2 B 2 | A=199 B=49  | pulse 8*50 / 8*200, 10000 Hz, 200
      7 2 B 2 | A=199 B=198 | pulse 8*199 / 8*200, 10000 Hz, 200
      7 2 B 2 | A=199 B=199 | high timer
      7 2 B 2 | A=199 B=200 | high timer
      7 2 B 2 | A=199 B=255 | high timer
      7 2 B 3 | A=199 B=0   | pulse 8*199 / 8*200, 10000 Hz, 200
      7 2 B 3 | A=199 B=49  | pulse 8*150 / 8*200, 10000 Hz, 200
      7 2 B 3 | A=199 B=198 | pulse 8*1 / 8*200, 10000 Hz, 200
      7 2 B 3 | A=199 B=199 | low timer
      7 2 B 3 | A=199 B=200 | low timer
      7 1 B 2 | A=1 B=0     | pulse 1 / 2, 8000000 Hz, 2
      7 1 B 2 | A=1 B=1     | high timer
      # TOP = 0: the counter never leaves BOTTOM; no pulse, and the sheet does not say which level.
      7 1 B 2 | A=0 B=0     | ? timer
      7 1 B 3 | A=0 B=5     | ? timer
      7 1 A 2 | A=0         | ? timer
    `,
  },
  {
    // "fOCnxPCPWM = fclk_I/O / (N · 510)"; "equal to BOTTOM … continuously low … equal to MAX … continuously high for
    // non-inverted PWM mode. For inverted PWM the output will have the opposite logic values."
    source: `${sheet}, 15.7.4 Phase Correct PWM Mode; tables 15-4, 15-7 (COM, phase correct)`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      1 3 A 0 | A=128 | low port
      1 3 A 1 | A=128 | low port
      1 3 B 1 | B=128 | unknown
      1 3 A 2 | A=0   | low timer
      1 3 A 2 | A=1   | pulse 64*2 / 64*510, 490.196078 Hz, 256
      1 3 A 2 | A=128 | pulse 64*256 / 64*510, 490.196078 Hz, 256
      1 3 A 2 | A=254 | pulse 64*508 / 64*510, 490.196078 Hz, 256
      1 3 A 2 | A=255 | high timer
      1 3 A 3 | A=0   | high timer
      1 3 A 3 | A=1   | pulse 64*508 / 64*510, 490.196078 Hz, 256
      1 3 A 3 | A=128 | pulse 64*254 / 64*510, 490.196078 Hz, 256
      1 3 A 3 | A=254 | pulse 64*2 / 64*510, 490.196078 Hz, 256
      1 3 A 3 | A=255 | low timer
      1 1 B 2 | B=100 | pulse 200 / 510, 31372.5490 Hz, 256
      1 1 B 3 | B=100 | pulse 310 / 510, 31372.5490 Hz, 256
      1 2 B 2 | B=0   | low timer
      1 2 B 3 | B=0   | high timer
    `,
  },
  {
    // TOP = OCR0A: one period is 2 · OCR0A counts. COM0A = 1 toggles at the one match per period, at TOP: half the
    // frequency again. A compare value above TOP never matches; the sheet does not say what the pin then holds.
    source: `${sheet}, 15.7.4 Phase Correct PWM Mode, WGM02:0 = 5; tables 15-4, 15-7`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      5 2 A 0 | A=200       | low port
      5 2 A 1 | A=200       | pulse 8*400 / 8*800, 2500 Hz, 1
      5 2 A 2 | A=200       | high timer
      5 2 A 3 | A=200       | low timer
      5 2 B 0 | A=200 B=50  | low port
      5 2 B 1 | A=200 B=50  | unknown
      5 2 B 2 | A=200 B=0   | low timer
      5 2 B 2 | A=200 B=1   | pulse 8*2 / 8*400, 5000 Hz, 201
      5 2 B 2 | A=200 B=50  | pulse 8*100 / 8*400, 5000 Hz, 201
      5 2 B 2 | A=200 B=199 | pulse 8*398 / 8*400, 5000 Hz, 201
      5 2 B 2 | A=200 B=200 | high timer
      5 2 B 2 | A=200 B=201 | ? timer
      5 2 B 2 | A=200 B=255 | ? timer
      5 2 B 3 | A=200 B=0   | high timer
      5 2 B 3 | A=200 B=50  | pulse 8*300 / 8*400, 5000 Hz, 201
      5 2 B 3 | A=200 B=200 | low timer
      5 2 B 3 | A=200 B=201 | ? timer
      5 1 B 2 | A=2 B=1     | pulse 2 / 4, 4000000 Hz, 3
      5 1 B 2 | A=1 B=0     | low timer
      5 1 B 2 | A=1 B=1     | high timer
      # TOP = 0: BOTTOM and TOP at once; no pulse, and the sheet does not say which level.
      5 3 B 2 | A=0 B=0     | ? timer
      5 3 B 2 | A=0 B=7     | ? timer
      5 3 B 3 | A=0 B=0     | ? timer
      5 3 A 2 | A=0         | ? timer
      5 3 A 1 | A=0         | unknown
    `,
  },
  {
    source: `${sheet}, table 15-8 (WGM02:0 = 4 and 6 are reserved)`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      4 3 A 0 | A=100 | low port
      4 3 A 1 | A=100 | unknown
      4 3 A 2 | A=100 | unknown
      4 3 B 3 | B=100 | unknown
      6 3 A 0 | A=100 | low port
      6 3 A 2 | A=100 | unknown
      6 3 A 3 | A=100 | unknown
      6 3 B 1 | B=100 | unknown
    `,
  },
  {
    // CS02:0 = 0 stops the timer, 6 and 7 clock it from pin T0: what comes in there is not known.
    source: `${sheet}, table 15-9 (CS02:0)`,
    chip: "atmega328p",
    timer: 0,
    rows: `
      3 0 A 0 | A=100 | low port
      3 0 A 2 | A=100 | ? timer
      0 0 A 1 | A=100 | ? timer
      3 1 A 2 | A=127 | pulse 128 / 256, 62500 Hz, 256
      3 2 A 2 | A=127 | pulse 8*128 / 8*256, 7812.5 Hz, 256
      3 3 A 2 | A=127 | pulse 64*128 / 64*256, 976.5625 Hz, 256
      3 4 A 2 | A=127 | pulse 256*128 / 256*256, 244.140625 Hz, 256
      3 5 A 2 | A=127 | pulse 1024*128 / 1024*256, 61.03515625 Hz, 256
      3 6 A 2 | A=127 | unknown
      3 7 A 2 | A=127 | unknown
      3 7 A 0 | A=127 | low port
    `,
  },
  {
    // Timer 2's prescaler has 32 and 128 as well, and no external edge.
    source: `${sheet}, 18.7.4; table 18-9 (CS22:0)`,
    chip: "atmega328p",
    timer: 2,
    rows: `
      1 0 B 2 | B=128 | ? timer
      1 1 B 2 | B=128 | pulse 256 / 510, 31372.5490 Hz, 256
      1 2 B 2 | B=128 | pulse 8*256 / 8*510, 3921.56863 Hz, 256
      1 3 B 2 | B=128 | pulse 32*256 / 32*510, 980.392157 Hz, 256
      1 4 B 2 | B=128 | pulse 64*256 / 64*510, 490.196078 Hz, 256
      1 5 B 2 | B=128 | pulse 128*256 / 128*510, 245.098039 Hz, 256
      1 6 B 2 | B=128 | pulse 256*256 / 256*510, 122.549020 Hz, 256
      1 7 B 2 | B=128 | pulse 1024*256 / 1024*510, 30.6372549 Hz, 256
    `,
  },
  {
    // The project's own afternoon: TOP in OCR2A, prescaler 32, f = 16 MHz / (2 · 32 · TOP).
    source: `${sheet}, 18.7.4 Phase Correct PWM Mode, WGM22:0 = 5`,
    chip: "atmega328p",
    timer: 2,
    rows: `
      5 3 B 2 | A=255 B=100 | pulse 32*200 / 32*510, 980.392157 Hz, 256
      5 3 B 2 | A=254 B=100 | pulse 32*200 / 32*508, 984.251969 Hz, 255
      5 3 B 2 | A=250 B=100 | pulse 32*200 / 32*500, 1000 Hz, 251
      5 3 B 2 | A=248 B=100 | pulse 32*200 / 32*496, 1008.06452 Hz, 249
      5 3 B 2 | A=240 B=100 | pulse 32*200 / 32*480, 1041.66667 Hz, 241
      5 3 B 2 | A=100 B=50  | pulse 32*100 / 32*200, 2500 Hz, 101
      5 3 B 2 | A=248 B=249 | ? timer
      5 3 B 2 | A=0 B=100   | ? timer
    `,
  },
  {
    // The same block in the ATmega2560 (2549 sections 16 and 20), one row per mode family.
    source: "ATmega640/1280/1281/2560/2561 data sheet, 2549, 16.7 and tables 16-2 to 16-9",
    chip: "atmega2560",
    timer: 0,
    rows: `
      0 2 B 1 | B=7         | pulse 8*256 / 2*8*256, 3906.25 Hz, 1
      2 4 B 1 | A=61 B=61   | pulse 256*62 / 2*256*62, 504.032258 Hz, 1
      3 3 B 2 | B=127       | pulse 64*128 / 64*256, 976.5625 Hz, 256
      7 2 B 3 | A=99 B=24   | pulse 8*75 / 8*100, 20000 Hz, 100
      1 3 B 2 | B=64        | pulse 64*128 / 64*510, 490.196078 Hz, 256
      5 1 B 2 | A=160 B=40  | pulse 80 / 320, 50000 Hz, 161
    `,
  },
];
