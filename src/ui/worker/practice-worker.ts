import "../state/zod-without-eval.ts";
import { PracticeBench } from "./practice-bench.ts";
import type { NumberedReply, NumberedRequest } from "./practice-messages.ts";
import { sentFault } from "./sent-fault.ts";

const bench = new PracticeBench();

self.addEventListener("message", ({ data }: MessageEvent<NumberedRequest>) => {
  self.postMessage(replyTo(data));
});

function replyTo({ number, request }: NumberedRequest): NumberedReply {
  try {
    return { number, reply: bench.answer(request) };
  } catch (fault) {
    return { number, failure: sentFault(fault) };
  }
}
