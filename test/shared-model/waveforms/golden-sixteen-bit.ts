/** Golden waveforms of the 16-bit timer block, by hand from the data sheet. See golden-rows.ts for the notation. */
import type { GoldenBlock } from "./golden-rows.js";

const sheet = "ATmega48A/PA/88A/PA/168A/PA/328/P data sheet, DS40002061";
const megaSheet = "ATmega640/1280/1281/2560/2561 data sheet, 2549";

export const sixteenBit: readonly GoldenBlock[] = [
  {
    source: `${sheet}, 16.9.1 Normal Mode; table 16-1 (COM, non-PWM)`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      0 1 A 0 | A=5     | low port
      0 1 A 1 | A=0     | pulse 65536 / 2*65536, 122.0703125 Hz, 1
      0 2 B 1 | B=65535 | pulse 8*65536 / 2*8*65536, 15.2587891 Hz, 1
      0 1 A 2 | A=5     | low timer
      0 1 A 3 | A=5     | high timer
      0 1 B 2 | B=5     | low timer
    `,
  },
  {
    // "fOCnA = fclk_I/O / (2 · N · (1 + OCRnA))"
    source: `${sheet}, 16.9.2 CTC Mode (TOP OCR1A: 4; TOP ICR1: 12); table 16-1`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      4 1 A 0  | A=7999          | low port
      4 1 A 1  | A=7999          | pulse 8000 / 2*8000, 1000 Hz, 1
      4 1 A 1  | A=0             | pulse 1 / 2*1, 8000000 Hz, 1
      4 1 A 1  | A=65535         | pulse 65536 / 2*65536, 122.0703125 Hz, 1
      4 1 A 2  | A=7999          | low timer
      4 1 A 3  | A=7999          | high timer
      4 1 B 1  | A=7999 B=4000   | pulse 8000 / 2*8000, 1000 Hz, 1
      4 1 B 1  | A=7999 B=8000   | ? timer
      4 1 B 2  | A=7999 B=4000   | low timer
      4 1 B 3  | A=7999 B=8000   | ? timer
      12 5 A 1 | ICR=15624 A=0   | pulse 1024*15625 / 2*1024*15625, 0.5 Hz, 1
      12 5 A 1 | ICR=15624 A=15624 | pulse 1024*15625 / 2*1024*15625, 0.5 Hz, 1
      12 5 A 1 | ICR=15624 A=15625 | ? timer
      12 5 B 1 | ICR=15624 B=99  | pulse 1024*15625 / 2*1024*15625, 0.5 Hz, 1
      12 5 A 2 | ICR=15624 A=99  | low timer
      12 5 B 3 | ICR=15624 B=99  | high timer
      12 5 B 0 | ICR=15624 B=99  | low port
      12 1 A 1 | ICR=0 A=0       | pulse 1 / 2*1, 8000000 Hz, 1
    `,
  },
  {
    // Fixed TOP 0xFF, 0x1FF, 0x3FF: period 2 · TOP counts. COM = 1: normal port operation in all of these.
    source: `${sheet}, 16.9.4 Phase Correct PWM Mode (1, 2, 3); table 16-3 (COM, phase correct)`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      1 3 A 0 | A=128  | low port
      1 3 A 1 | A=128  | low port
      1 3 B 1 | B=128  | low port
      1 3 A 2 | A=128  | pulse 64*256 / 64*510, 490.196078 Hz, 256
      1 3 A 3 | A=128  | pulse 64*254 / 64*510, 490.196078 Hz, 256
      1 3 A 2 | A=0    | low timer
      1 3 A 2 | A=255  | high timer
      1 3 A 2 | A=256  | ? timer
      1 3 A 3 | A=1000 | ? timer
      2 1 A 0 | A=100  | low port
      3 1 B 0 | B=100  | low port
      2 1 A 2 | A=100  | pulse 200 / 1022, 15655.5773 Hz, 512
      2 1 B 3 | B=100  | pulse 822 / 1022, 15655.5773 Hz, 512
      2 1 A 2 | A=511  | high timer
      2 1 A 2 | A=512  | ? timer
      2 1 A 1 | A=100  | low port
      3 2 A 2 | A=512  | pulse 8*1024 / 8*2046, 977.517107 Hz, 1024
      3 1 B 2 | B=1    | pulse 2 / 2046, 7820.13685 Hz, 1024
      3 1 B 3 | B=0    | high timer
      3 1 B 3 | B=1023 | low timer
      3 1 A 2 | A=1024 | ? timer
      3 1 B 1 | B=100  | low port
    `,
  },
  {
    // Fixed TOP 0xFF, 0x1FF, 0x3FF: period TOP + 1 counts. Above TOP nothing clears what is set at BOTTOM.
    source: `${sheet}, 16.9.3 Fast PWM Mode (5, 6, 7); table 16-2 (COM, fast PWM)`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      5 3 A 0 | A=100  | low port
      5 3 A 1 | A=100  | low port
      5 3 B 1 | B=100  | low port
      5 3 A 2 | A=0    | pulse 64*1 / 64*256, 976.5625 Hz, 256
      5 3 A 2 | A=100  | pulse 64*101 / 64*256, 976.5625 Hz, 256
      5 3 A 3 | A=100  | pulse 64*155 / 64*256, 976.5625 Hz, 256
      5 3 A 2 | A=255  | high timer
      5 3 A 2 | A=256  | high timer
      5 3 A 3 | A=256  | low timer
      6 1 B 0 | B=255  | low port
      7 1 A 0 | A=255  | low port
      6 1 A 2 | A=255  | pulse 256 / 512, 31250 Hz, 512
      6 1 B 3 | B=255  | pulse 256 / 512, 31250 Hz, 512
      6 1 A 2 | A=511  | high timer
      6 1 B 3 | B=511  | low timer
      6 1 B 3 | B=512  | low timer
      6 1 A 1 | A=255  | low port
      7 2 A 2 | A=0    | pulse 8*1 / 8*1024, 1953.125 Hz, 1024
      7 2 B 2 | B=1022 | pulse 8*1023 / 8*1024, 1953.125 Hz, 1024
      7 2 B 2 | B=1023 | high timer
      7 2 B 3 | B=1022 | pulse 8*1 / 8*1024, 1953.125 Hz, 1024
      7 2 B 1 | B=3    | low port
    `,
  },
  {
    // "fOCnxPWM = fclk_I/O / (N · (1 + TOP))"; 14 and 15 let COM1A = 1 toggle OC1A, OC1B stays disconnected.
    source: `${sheet}, 16.9.3 Fast PWM Mode (14: TOP ICR1, 15: TOP OCR1A); table 16-2`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      14 2 A 0 | ICR=39999 A=2999  | low port
      14 2 A 2 | ICR=39999 A=2999  | pulse 8*3000 / 8*40000, 50 Hz, 40000
      14 2 A 2 | ICR=39999 A=0     | pulse 8*1 / 8*40000, 50 Hz, 40000
      14 2 A 2 | ICR=39999 A=39999 | high timer
      14 2 A 2 | ICR=39999 A=40000 | high timer
      14 2 B 3 | ICR=39999 B=2999  | pulse 8*37000 / 8*40000, 50 Hz, 40000
      14 2 B 3 | ICR=39999 B=65535 | low timer
      14 2 A 1 | ICR=39999 A=2999  | pulse 8*40000 / 2*8*40000, 25 Hz, 1
      14 2 A 1 | ICR=39999 A=39999 | pulse 8*40000 / 2*8*40000, 25 Hz, 1
      14 2 A 1 | ICR=39999 A=40000 | ? timer
      14 2 B 1 | ICR=39999 B=2999  | low port
      14 1 A 2 | ICR=0 A=0         | ? timer
      15 1 A 0 | A=639             | low port
      15 1 A 1 | A=639             | pulse 640 / 2*640, 12500 Hz, 1
      15 1 A 1 | A=0               | pulse 1 / 2*1, 8000000 Hz, 1
      15 1 A 2 | A=639             | high timer
      15 1 A 3 | A=639             | low timer
      15 1 B 1 | A=639 B=319       | low port
      15 1 B 2 | A=639 B=319       | pulse 320 / 640, 25000 Hz, 640
      15 1 B 2 | A=639 B=639       | high timer
      15 1 B 2 | A=639 B=640       | high timer
      15 1 B 3 | A=639 B=0         | pulse 639 / 640, 25000 Hz, 640
      15 1 B 2 | A=0 B=0           | ? timer
    `,
  },
  {
    // "fOCnxPCPWM = fclk_I/O / (2 · N · TOP)"; 11 lets COM1A = 1 toggle OC1A, 10 does not.
    source: `${sheet}, 16.9.4 Phase Correct PWM Mode (10: TOP ICR1, 11: TOP OCR1A); table 16-3`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      10 2 A 0 | ICR=1000 A=250  | low port
      10 2 A 1 | ICR=1000 A=250  | low port
      10 2 A 2 | ICR=1000 A=250  | pulse 8*500 / 8*2000, 1000 Hz, 1001
      10 2 A 2 | ICR=1000 A=0    | low timer
      10 2 A 2 | ICR=1000 A=1000 | high timer
      10 2 A 2 | ICR=1000 A=1001 | ? timer
      10 2 B 1 | ICR=1000 B=250  | low port
      10 2 B 3 | ICR=1000 B=250  | pulse 8*1500 / 8*2000, 1000 Hz, 1001
      10 2 B 2 | ICR=0 B=250     | ? timer
      11 3 A 0 | A=250           | low port
      11 3 A 1 | A=250           | pulse 64*500 / 64*1000, 250 Hz, 1
      11 3 A 2 | A=250           | high timer
      11 3 A 3 | A=250           | low timer
      11 3 B 1 | A=250 B=125     | low port
      11 3 B 2 | A=250 B=125     | pulse 64*250 / 64*500, 500 Hz, 251
      11 3 B 3 | A=250 B=0       | high timer
      11 3 B 3 | A=250 B=250     | low timer
      11 3 B 2 | A=250 B=251     | ? timer
    `,
  },
  {
    // "fOCnxPFCPWM = fclk_I/O / (2 · N · TOP)"; 9 lets COM1A = 1 toggle OC1A, 8 does not.
    source: `${sheet}, 16.9.5 Phase and Frequency Correct PWM Mode (8: TOP ICR1, 9: TOP OCR1A); table 16-3`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      8 1 A 0 | ICR=320 A=80   | low port
      8 1 A 1 | ICR=320 A=80   | low port
      8 1 A 2 | ICR=320 A=80   | pulse 160 / 640, 25000 Hz, 321
      8 1 A 3 | ICR=320 A=80   | pulse 480 / 640, 25000 Hz, 321
      8 1 A 2 | ICR=320 A=0    | low timer
      8 1 A 2 | ICR=320 A=320  | high timer
      8 1 A 2 | ICR=320 A=321  | ? timer
      8 1 B 1 | ICR=320 B=80   | low port
      8 1 B 2 | ICR=400 B=100  | pulse 200 / 800, 20000 Hz, 401
      8 1 B 3 | ICR=320 B=320  | low timer
      9 1 A 0 | A=8000         | low port
      9 1 A 1 | A=8000         | pulse 16000 / 32000, 500 Hz, 1
      9 1 A 2 | A=8000         | high timer
      9 1 A 3 | A=8000         | low timer
      9 1 B 1 | A=8000 B=4000  | low port
      9 1 B 2 | A=8000 B=4000  | pulse 8000 / 16000, 1000 Hz, 8001
      9 1 B 3 | A=8000 B=1     | pulse 15998 / 16000, 1000 Hz, 8001
      9 1 B 2 | A=8000 B=8001  | ? timer
      9 1 B 2 | A=0 B=1        | ? timer
      9 1 A 1 | A=0            | unknown
    `,
  },
  {
    source: `${sheet}, table 16-4 (13 is reserved), table 16-5 (CS12:0)`,
    chip: "atmega328p",
    timer: 1,
    rows: `
      13 1 A 0 | A=100          | low port
      13 1 A 1 | A=100          | unknown
      13 1 A 2 | A=100          | unknown
      13 1 B 3 | B=100          | unknown
      8 0 A 2  | ICR=320 A=80   | ? timer
      8 2 A 2  | ICR=320 A=80   | pulse 8*160 / 8*640, 3125 Hz, 321
      8 3 A 2  | ICR=320 A=80   | pulse 64*160 / 64*640, 390.625 Hz, 321
      8 4 A 2  | ICR=320 A=80   | pulse 256*160 / 256*640, 97.65625 Hz, 321
      8 5 A 2  | ICR=320 A=80   | pulse 1024*160 / 1024*640, 24.4140625 Hz, 321
      8 6 A 2  | ICR=320 A=80   | unknown
      8 7 A 2  | ICR=320 A=80   | unknown
    `,
  },
  {
    // Three channels: C follows B everywhere.
    source: `${megaSheet}, 17.9; tables 17-2 (WGM), 17-3, 17-4, 17-5 (COM)`,
    chip: "atmega2560",
    timer: 3,
    rows: `
      0 1 C 1  | C=9             | pulse 65536 / 2*65536, 122.0703125 Hz, 1
      4 1 C 1  | A=7999 C=10     | pulse 8000 / 2*8000, 1000 Hz, 1
      4 1 C 1  | A=7999 C=9000   | ? timer
      4 1 C 3  | A=7999 C=10     | high timer
      5 3 C 2  | C=0             | pulse 64*1 / 64*256, 976.5625 Hz, 256
      5 3 C 1  | C=0             | low port
      14 1 C 2 | ICR=319 C=159   | pulse 160 / 320, 50000 Hz, 320
      14 1 C 3 | ICR=319 C=0     | pulse 319 / 320, 50000 Hz, 320
      14 1 A 1 | ICR=319 A=0     | pulse 320 / 2*320, 25000 Hz, 1
      14 1 C 1 | ICR=319 C=0     | low port
      15 1 C 2 | A=319 C=319     | high timer
      8 1 C 2  | ICR=320 C=320   | high timer
      8 1 C 2  | ICR=320 C=32    | pulse 64 / 640, 25000 Hz, 321
      9 1 C 1  | A=320 C=32      | low port
      9 1 A 1  | A=320           | pulse 640 / 1280, 12500 Hz, 1
      10 1 C 3 | ICR=320 C=32    | pulse 576 / 640, 25000 Hz, 321
      11 1 C 2 | A=320 C=321     | ? timer
      13 1 C 2 | C=1             | unknown
    `,
  },
];
