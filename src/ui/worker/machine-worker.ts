import "../state/zod-without-eval.ts";
import { faultLine } from "../../base/index.ts";
import { MachineService } from "../../application/index.ts";
import type { SentCall, SentFault, SentReply } from "./machine-messages.ts";

const service = new MachineService();

self.addEventListener("message", ({ data: { number, name, request } }: MessageEvent<SentCall>) => {
  const send = (reply: SentReply): void => self.postMessage(reply);
  try {
    send({ number, reply: service.answer(name, request, (news) => send({ number, news })) });
  } catch (fault) {
    send({ number, failure: sentFault(fault) });
  }
});

/** A thrown value may hold what cannot be sent. */
function sentFault(fault: unknown): SentFault {
  const stack = fault instanceof Error ? fault.stack : undefined;
  return { text: faultLine(fault), ...(stack !== undefined && { stack }) };
}
