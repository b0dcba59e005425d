// Everything that is asked of a machine, behind one door that a worker can serve.
export {
  MachineService,
  type MachineCalls,
  type OpenedText,
  type ReadMachine,
  type ReadNews,
  type ReplyOf,
  type RequestOf,
} from "./machine-service.ts";
export type { SentExercise, SentScore } from "./training-service.ts";
