/**
 * Sketches with the packaged core's libraries: what is reported of the pins is the same, or closer, whether these are built in,
 * found in a folder that is named, or come with the core; and it does not take long.
 */
import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { coreFolder } from "../oracle/compile.js";
import { notContained, runningSignals } from "./running-signals.js";

const core = coreFolder();
const libraries = [join(core, "libraries")];
afterEach(removeFolders);

/** Far above what it takes (under 100 ms), far below what is noticed as standing still. */
const LONGEST = 3_000;

const SKETCHES: Readonly<Record<string, string>> = {
  "a level kept in EEPROM": `#include <EEPROM.h>
    void setup() {
      int level = EEPROM.read(0);
      analogWrite(9, level > 200 ? 200 : level);
      EEPROM.update(0, 77);
    }
    void loop() { delay(10); }`,
  "settings kept in EEPROM": `#include <EEPROM.h>
    struct Settings { uint8_t duty; uint16_t top; } settings;
    void setup() {
      EEPROM.get(4, settings);
      analogWrite(10, settings.duty);
      EEPROM.put(4, settings);
      EEPROM[8] = 3;
    }
    void loop() { delay(10); }`,
  "a converter on SPI": `#include <SPI.h>
    void setup() {
      SPI.begin();
      analogWrite(3, 60);
      SPI.beginTransaction(SPISettings(4000000, MSBFIRST, SPI_MODE0));
      SPI.transfer16(77);
      SPI.endTransaction();
    }
    void loop() { analogWrite(5, SPI.transfer(0)); delay(3); }`,
  "a probe on the two-wire bus": `#include <Wire.h>
    void setup() { Wire.begin(); }
    void loop() {
      Wire.beginTransmission(0x48);
      Wire.write(0);
      Wire.endTransmission();
      Wire.requestFrom(0x48, 1);
      analogWrite(6, Wire.read() > 100 ? 200 : 20);
      delay(50);
    }`,
  "a radio on a SoftwareSerial": `#include <SoftwareSerial.h>
    SoftwareSerial radio(7, 8);
    void setup() { radio.begin(9600); analogWrite(5, 100); }
    void loop() { if (radio.available() && radio.read() == 'h') analogWrite(5, 200); radio.println("lamp"); delay(5); }`,
};

describe("the packaged libraries", () => {
  for (const [name, text] of Object.entries(SKETCHES)) {
    it(name, async () => {
      const path = join(folderOf({ "fan/fan.ino": text }), "fan/fan.ino");
      await runningSignals(path, "uno", undefined);
      const builtIn = await runningSignals(path, "uno", undefined);
      expect(builtIn.gaps).toEqual([]);
      for (const other of [
        await runningSignals(path, "uno", undefined, libraries),
        await runningSignals(path, "uno", core),
      ]) {
        expect(other.gaps).toEqual([]);
        expect(notContained(other, builtIn)).toEqual([]);
        expect(other.milliseconds).toBeLessThan(LONGEST);
      }
    });
  }
});
