/** The duty curve over the protocol: at a write or call that sets a duty, and nowhere else. */
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { DUTY_CURVE_REQUEST, type DutyCurveAnswer } from "../../shared-model/protocol.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { Editor } from "./editor.js";
import { serverBundle } from "./server-bundle.js";

const VENT = `void setup() {
  OCR2A = 248;
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
}
void loop() {
  analogWrite(3, analogRead(A0) / 4);
  delay(20);
}
`;

let bundle: string;
let editor: Editor;

beforeAll(async () => {
  bundle = await serverBundle("duty-curve");
});
afterEach(async () => {
  expect(await editor.stop()).toBe(0);
});
afterAll(removeFolders);

it("answers at a duty, with facts and a picture, and with null elsewhere", async () => {
  const folder = folderOf({ "vent/vent.ino": VENT });
  editor = await Editor.start(bundle, { folders: [folder] });
  const uri = await editor.open(join(folder, "vent/vent.ino"));
  const ask = (line: number, character: number) =>
    editor.connection.sendRequest<DutyCurveAnswer | null>(DUTY_CURVE_REQUEST, { uri, position: { line, character } });
  const answer = await ask(6, 10);
  expect(answer).toMatchObject({ label: "D3", input: "reading", top: 248, used: 249, steps: 249, deadHigh: 31 });
  expect(answer?.line).toMatch(/993\.\.1023 all give constant high/);
  expect(answer?.points).toHaveLength(1024);
  expect(answer?.points[4]).toEqual({ input: 4, value: 1, duty: 2 / 249 });
  expect(answer?.svg).toMatch(/^<svg .*currentColor.*<\/svg>$/);
  expect(await ask(7, 4)).toBeNull();
  expect(await ask(1, 4)).toBeNull();
  expect(await ask(99, 0)).toBeNull();
});
