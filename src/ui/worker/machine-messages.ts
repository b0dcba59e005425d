import type { MachineCalls, ReadNews, ReplyOf, RequestOf } from "../../application/index.ts";

/** Name of a call. */
export type Name = keyof MachineCalls;

/** A call as it travels to the worker. */
export interface SentCall<Of extends Name = Name> {
  readonly number: number;
  readonly name: Of;
  readonly request: RequestOf<Of>;
}

/** A fault of the worker as it travels to the page. */
export interface SentFault {
  readonly text: string;
  readonly stack?: string;
}

/** What comes back: the reply that ends a call, news on the way, or what went wrong in the program. */
export type SentReply = { readonly number: number } & (
  { readonly reply: ReplyOf<Name> } | { readonly news: ReadNews } | { readonly failure: SentFault }
);
