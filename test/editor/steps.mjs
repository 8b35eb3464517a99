/** Steps of the suite: named, counted, and the first failure of a session ends that session. */

export const counts = { passed: 0, failed: 0 };

export async function step(name, work) {
  try {
    await work();
    counts.passed++;
    console.log(`ok      ${name}`);
  } catch (error) {
    counts.failed++;
    console.log(`FAILED  ${name}\n        ${error instanceof Error ? error.message : error}`);
    throw error;
  }
}

export function expect(fact, message) {
  if (!fact) throw new Error(message);
}
