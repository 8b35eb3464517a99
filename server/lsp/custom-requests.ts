/** The requests beyond the standard protocol, typed in shared-model/protocol.ts. */
import {
  BOARDS_REQUEST,
  type BoardChoice,
  DUTY_CURVE_REQUEST,
  type DutyCurveAnswer,
  type DutyCurveParams,
  FINDING_PAGE_REQUEST,
  type FileEdit,
  PINS_REQUEST,
  type PinChoice,
  PLAN_EDIT_REQUEST,
  PLANS_REQUEST,
  type PlanChoices,
  type PlanEditParams,
  type PlannedEdit,
  type PlansParams,
  READ_WANT_REQUEST,
  SHEET_REQUEST,
  type SheetParams,
  TARGET_EDIT_REQUEST,
  TARGET_REQUEST,
  type TargetAnswer,
  type TargetEditParams,
  type TargetParams,
  type UnreadWant,
} from "../../shared-model/protocol.js";
import type { Guard } from "./guard.js";
import { askAbout } from "./place-requests.js";
import type { Session } from "./session-state.js";
import { pathOf } from "./uris.js";

export function registerCustomRequests(session: Session, guard: Guard): void {
  const { connection, engine } = session;

  connection.onRequest(TARGET_REQUEST, ({ uri }: TargetParams) =>
    guard.run<TargetAnswer | null>("target", null, async () => {
      const answered = await engine.ask("target", { path: pathOf(uri) }, await session.circumstances(uri));
      if (answered.kind === "fault") return { ...UNKNOWN_TARGET, mainUri: uri, trouble: answered.reason };
      return answered.kind === "answer" ? answered.answer : null;
    }),
  );
  connection.onRequest(BOARDS_REQUEST, () =>
    guard.run<readonly BoardChoice[]>(
      "boards",
      [],
      async () => (await askAbout(session, "boards", "", { path: "" })) ?? [],
    ),
  );
  connection.onRequest(TARGET_EDIT_REQUEST, ({ uri, boardId, clockHz }: TargetEditParams) =>
    guard.run<FileEdit | null>(
      "target edit",
      null,
      async () => (await askAbout(session, "targetEdit", uri, { path: pathOf(uri), boardId, clockHz })) ?? null,
    ),
  );
  connection.onRequest(FINDING_PAGE_REQUEST, ({ id }: { id: string }) =>
    guard.run<string | null>(
      "finding page",
      null,
      async () => (await askAbout(session, "findingPage", "", { path: "", id })) ?? null,
    ),
  );
  connection.onRequest(SHEET_REQUEST, ({ uri, format }: SheetParams) =>
    guard.run<string | null>(
      "sheet",
      null,
      async () => (await askAbout(session, "sheet", uri, { path: pathOf(uri), format: format ?? "text" })) ?? null,
    ),
  );
  connection.onRequest(DUTY_CURVE_REQUEST, ({ uri, position }: DutyCurveParams) =>
    guard.run<DutyCurveAnswer | null>(
      "duty curve",
      null,
      async () => (await askAbout(session, "dutyCurve", uri, { path: pathOf(uri), position })) ?? null,
    ),
  );
  connection.onRequest(PINS_REQUEST, ({ uri }: TargetParams) =>
    guard.run<readonly PinChoice[] | null>(
      "pins",
      null,
      async () => (await askAbout(session, "pins", uri, { path: pathOf(uri) })) ?? null,
    ),
  );
  connection.onRequest(READ_WANT_REQUEST, ({ uri, pin, want }: PlansParams) =>
    guard.run<UnreadWant | null>(
      "want while it is typed",
      null,
      async () => (await askAbout(session, "readWant", uri, { path: pathOf(uri), pin, want })) ?? null,
    ),
  );
  connection.onRequest(PLANS_REQUEST, ({ uri, pin, want }: PlansParams, token) =>
    guard.run<PlanChoices | null>(
      "plans",
      null,
      async () => (await askAbout(session, "plans", uri, { path: pathOf(uri), pin, want }, token)) ?? null,
    ),
  );
  connection.onRequest(PLAN_EDIT_REQUEST, ({ uri, pin, want, title, writesWant }: PlanEditParams) =>
    guard.run<PlannedEdit | null>(
      "planned edit",
      null,
      async () =>
        (await askAbout(session, "planEdit", uri, { path: pathOf(uri), pin, want, title, writesWant })) ?? null,
    ),
  );
}

/** For a sketch whose analysis failed: nothing is claimed but the trouble itself. */
const UNKNOWN_TARGET: Omit<TargetAnswer, "mainUri" | "trouble"> = {
  boardId: "",
  boardName: "",
  chip: "",
  clockHz: 0,
  fCpu: 0,
  clockTolerance: 0,
  decidedBy: "",
  complete: false,
  gaps: 0,
};
