/**
 * Tiny sketches, one call of the core each (or two where the second undoes the first), for comparing the model of the
 * core's functions with the real ones: registers and signals after the call must be equal, not only inside.
 */
import type { BoardId } from "./compile.js";

export interface CoreCall {
  readonly name: string;
  readonly board: BoardId;
  readonly text: string;
}

const VALUES = [-1, 0, 1, 127, 128, 254, 255, 256, 300, 1000];
const UNO_PWM = [3, 5, 6, 9, 10, 11];
const MEGA_PWM = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 44, 45, 46];
const UNO_PLAIN = [0, 1, 2, 4, 7, 8, 12, 13, 14, 15, 16, 17, 18, 19];

export function coreCalls(): CoreCall[] {
  const calls: CoreCall[] = [];
  const add = (name: string, setup: string, board: BoardId = "uno", loop = ""): void => {
    calls.push({ name: `${board}-${name}`, board, text: `void setup() {\n  ${setup}\n}\nvoid loop() {\n${loop}}\n` });
  };
  add("init", "");
  add("init", "", "mega");
  for (const pin of UNO_PWM) {
    for (const value of VALUES) add(`analog-write-${pin}-${value}`, `analogWrite(${pin}, ${value});`);
    add(`digital-write-after-${pin}`, `analogWrite(${pin}, 100); delay(5); digitalWrite(${pin}, HIGH);`);
    add(`digital-read-after-${pin}`, `analogWrite(${pin}, 100); delay(5); digitalRead(${pin});`);
    add(`constant-after-pulse-${pin}`, `analogWrite(${pin}, 100); delay(5); analogWrite(${pin}, 0);`);
    add(`pin-mode-after-${pin}`, `analogWrite(${pin}, 100); delay(5); pinMode(${pin}, INPUT_PULLUP);`);
  }
  for (const pin of UNO_PLAIN) {
    for (const value of [-1, 0, 127, 128, 255, 300]) {
      add(`analog-write-${pin}-${value}`, `analogWrite(${pin}, ${value});`);
    }
  }
  for (const pin of [...UNO_PWM, 2, 13, 14]) {
    for (const mode of ["INPUT", "OUTPUT", "INPUT_PULLUP"]) {
      add(`pin-mode-${pin}-${mode}`, `digitalWrite(${pin}, HIGH); pinMode(${pin}, ${mode});`);
    }
    add(`write-low-${pin}`, `pinMode(${pin}, OUTPUT); digitalWrite(${pin}, HIGH); digitalWrite(${pin}, LOW);`);
  }
  for (const pin of MEGA_PWM) {
    for (const value of [-1, 0, 1, 128, 255, 300]) {
      add(`analog-write-${pin}-${value}`, `analogWrite(${pin}, ${value});`, "mega");
    }
    add(`digital-write-after-${pin}`, `analogWrite(${pin}, 100); delay(5); digitalWrite(${pin}, LOW);`, "mega");
  }
  for (const hz of [31, 62, 100, 440, 1000, 4000, 20000, 65535]) {
    add(`tone-${hz}`, `tone(8, ${hz});`);
    add(`tone-${hz}`, `tone(8, ${hz});`, "mega");
    add(`tone-stopped-${hz}`, `tone(8, ${hz}); delay(40); noTone(8);`);
  }
  add("tone-for-a-while", "tone(8, 1000, 20); delay(60);");
  add("tone-over-pulse", "analogWrite(3, 100); analogWrite(11, 50); tone(4, 440);");
  add("pulse-over-tone", "tone(4, 440); analogWrite(3, 100);");
  add("no-tone-alone", "analogWrite(3, 100); noTone(5);");
  add("analog-read", "analogRead(A0);");
  add("serial", 'Serial.begin(9600); Serial.println("lamp");');
  add("attach-interrupt", "attachInterrupt(0, setup2, RISING);\n}\nvoid setup2() { analogWrite(3, 9);");
  add("shift-out", "pinMode(9, OUTPUT); pinMode(10, OUTPUT); shiftOut(9, 10, MSBFIRST, 0xA5);");
  add("delay-microseconds", "analogWrite(9, 50); delayMicroseconds(500);");
  add("interrupts-off", "noInterrupts(); analogWrite(9, 50); interrupts();");
  return calls;
}
