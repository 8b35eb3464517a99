/** What `pulsewright --help` prints. */

export const USAGE = `Pulsewright says what every pin of an Arduino / AVR sketch puts out, before anything is uploaded.

  pulsewright report PATH... [options]   the signal sheet of each sketch
  pulsewright plan --pin PIN "WANT"      the best settings of a timer for a signal, with code
  pulsewright plan PATH...               the same for every want of a sketch, as edits proved on it
  pulsewright explain --pin PIN "READING" [SKETCH]   what a bench reading tells, and what would explain it
  pulsewright serve --stdio              the language server, for editors
  pulsewright --help | --version

PATH is a sketch file (.ino, .pde, .cpp, .c) or a folder (all sketches under it).

  --board ID          uno, nano, mega ..., id:cpu=option, or a bare chip (atmega328p)
  --clock HZ          oscillator and F_CPU: 16000000, 8e6 or 8MHz
  --format FORMAT     text (default), json, markdown (for the build log) or sarif
  --libraries DIR     a folder of libraries; may be given several times
  --core DIR          an installed core (cores/, variants/): its sources are executed too
  --fail-on SEVERITY  note, warning or error (default): what makes the exit status 1
  --allowed           with sarif: findings that a comment allows too, as suppressed

WANT is what would stand behind "wants D9:" in a sketch: "25 kHz within 21..28 kHz, 100 steps",
"1 kHz +-2 %, reach 10..96 %", "fan-4wire". Also for plan:

  --pin PIN[,PIN]     D9, 9, A0 or PB1; several pins share one want, or have one each, in order
  --keep PIN[,PIN]    pins whose signals must stay what the core gives them

READING is what would stand behind "bench reads D3:": "985 Hz", "1.04 kHz +-2 Hz, duty 50 %", and with
registers that were held meanwhile "with OCR2A = 0xFE: 985 Hz". Without SKETCH the core's analogWrite
alone is taken for the prediction.

Board and clock are taken from the command line, then from the sketch's own comment
(// for pulsewright: board nano, clock 16 MHz), then from sketch.yaml, else nano.

Exit status: 0 nothing at or above --fail-on, 1 something was (plan, explain: 0 found, 1 none), 2 bad usage or
unreadable input.
A prediction is no proof of safety: check on the bench with the load disconnected.
`;
