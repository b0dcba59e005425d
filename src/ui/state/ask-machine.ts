import type { MachineCalls, ReplyOf, RequestOf } from "../../application/index.ts";
import { CallDropped, machineClient, type CallOptions } from "../worker/machine-client.ts";
import { faultNet } from "./fault-net.svelte.ts";

/**
 * Asks the machine for a part of the page, which shows nothing until it is answered. A call that was dropped is wanted by nobody; a fault
 * of the program is told by the page.
 *
 * @param name Which call.
 * @param request What is asked.
 * @param options About which machine, and in which lane; `doing` says what the page was doing, should the program fail.
 * @param onReply Told of the answer.
 */
export function askMachine<Name extends keyof MachineCalls>(
  name: Name,
  request: RequestOf<Name>,
  { doing, ...options }: CallOptions & { readonly doing: string },
  onReply: (reply: ReplyOf<Name>) => void,
): void {
  machineClient.ask(name, request, options).then(onReply, (fault: unknown) => {
    if (!(fault instanceof CallDropped)) faultNet.tell(fault, doing);
  });
}
