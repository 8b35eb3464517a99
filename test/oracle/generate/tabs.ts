/** How a program is spread over files: mostly one, sometimes tabs and headers. */
import type { Draft } from "./draft.js";
import type { Program } from "./program.js";
import type { Lines } from "./registers.js";

/** `functions` are setup and loop, or main. */
export function splitIntoFiles(draft: Draft, functions: Lines): Program {
  const { dice, head, body } = draft;
  const beside = { ...draft.beside };
  const first: Lines = [];
  const roll = dice.int(0, 99);
  if (roll < 5) {
    // Types and globals in a header of the sketch's own.
    beside["settings.h"] =
      `${dice.pick(["#pragma once", "#ifndef SETTINGS_H\n#define SETTINGS_H"])}\n${head.join("\n")}\n`;
    if (!beside["settings.h"].startsWith("#pragma")) beside["settings.h"] += "#endif\n";
    first.push('#include "settings.h"', "", ...body, ...functions);
  } else if (roll < 10) {
    // setup and loop in a later tab: the functions stand before them once the tabs are joined.
    beside["turns.ino"] = `${functions.join("\n")}\n`;
    first.push(...head, "", ...body);
  } else {
    first.push(...head, "", ...body, ...functions);
  }
  return { text: `${first.join("\n")}\n`, beside };
}
