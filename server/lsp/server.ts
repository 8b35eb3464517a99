/** The language server's entry: the protocol on the main thread, the engine on a thread of its own, both from this one bundle. */
import { dirname } from "node:path";
import { isMainThread } from "node:worker_threads";
import { runEngineThread } from "./engine-thread.js";
import { startSession } from "./session.js";

if (isMainThread) startSession(__filename);
else void runEngineThread(dirname(__filename));
