/** What one window tells the others. */
export interface JobChangeMessage {
  readonly id: string;
  readonly kind: "saved" | "removed";
}

/** A line to the other windows of this page. */
export interface JobChannel {
  tell(news: JobChangeMessage): void;
}

/**
 * Opens the line. Where the browser has none, nothing is heard; saving joins what others stored all the same.
 *
 * @param onNews Called with what other windows tell.
 */
export function openJobChannel(onNews: (news: JobChangeMessage) => void): JobChannel {
  if (typeof BroadcastChannel === "undefined") return { tell: () => undefined };
  const channel = new BroadcastChannel("ohmward-jobs");
  channel.addEventListener("message", (event: MessageEvent<JobChangeMessage>) => onNews(event.data));
  return { tell: (news) => channel.postMessage(news) };
}
