/** Runs what needs avr-gcc: `npx vitest run --config test/oracle-preprocess/vitest.config.mts`. */
import { defineConfig } from "vitest/config";

export default defineConfig({ test: { include: ["test/oracle-preprocess/**/*.oracle.test.ts"], root: "." } });
