/** Tests that need the compiler, the C library's headers and the packaged core (gcc-avr, avr-libc, arduino-core-avr): run by .ci/run. */
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.oracle.test.ts"],
    testTimeout: 120_000,
  },
});
