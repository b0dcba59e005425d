import { RESULT_FORMAT, TASK_LIST_FORMAT } from "../../application/index.ts";
import { classResultsState } from "./class-results.svelte.ts";
import { importState } from "./import.svelte.ts";
import { page } from "./page.svelte.ts";
import { trainingState } from "./training.svelte.ts";

/**
 * Takes files that were dropped on the training page or chosen there: an exercise list is opened, result files are collected, anything else
 * that is no training file is handed to the page that reads machines. On the page that collects results everything counts as a result, so
 * that a broken file is named there and not lost.
 */
export async function takeTrainingFiles(files: readonly File[]): Promise<void> {
  const results: File[] = [];
  const others: File[] = [];
  for (const file of files) {
    const isCollected = page.place === "class" && /\.json$/iu.test(file.name);
    // The format stands in the first line or two.
    const start = await file.slice(0, 400).text();
    if (start.includes(`"${TASK_LIST_FORMAT}"`)) {
      await trainingState.openList(await file.text());
      trainingState.go({ kind: "start" });
    } else if (isCollected || start.includes(`"${RESULT_FORMAT}"`) || /ohmresult/iu.test(file.name)) results.push(file);
    else others.push(file);
  }
  if (results.length > 0) {
    trainingState.go({ kind: "class" });
    await classResultsState.take(results);
  }
  if (others.length === 0) return;
  if (others.some((file) => /ohmtasks/iu.test(file.name))) {
    for (const file of others) await trainingState.openList(await file.text());
    trainingState.go({ kind: "start" });
  } else importState.take(others);
}
