import type { ImportPlace, ImportProblem } from "../import-problem.ts";
import type { LooseConnector } from "./loose-connector.ts";
import type {
  BuildInput,
  ComponentInput,
  NetInput,
  OptionInput,
  PlaceInput,
  SegmentInput,
  SpliceInput,
  StateInput,
  StudInput,
  SystemInput,
  WireInput,
  ZoneInput,
} from "./draft-types.ts";
import { IdBook } from "./id-book.ts";

/** What a draft knows before the first thing is added. */
export interface DraftStart {
  /** Name of the file that is read first. */
  readonly file: string;
  /** Put before every own id of that file; useful when several files become one document. */
  readonly prefix?: string;
  readonly title?: string;
  readonly machine?: string;
  /** Where the data comes from, in words; absent means the file names. */
  readonly source?: string;
  readonly notes?: readonly string[];
  readonly system?: SystemInput;
  /** Whether each wire says in which row or part of the file it was found; absent means yes. */
  readonly tellsOrigin?: boolean;
}

/** What a draft has collected. Each thing is kept with its place in the file; the lists are in the order of the file. */
export class DraftParts {
  readonly components: ComponentInput[] = [];
  readonly connectors: LooseConnector[] = [];
  readonly wires: WireInput[] = [];
  readonly splices: SpliceInput[] = [];
  readonly studs: StudInput[] = [];
  readonly places: PlaceInput[] = [];
  readonly segments: SegmentInput[] = [];
  readonly zones: ZoneInput[] = [];
  readonly options: OptionInput[] = [];
  readonly builds: BuildInput[] = [];
  readonly states: StateInput[] = [];
  readonly nets: NetInput[] = [];
  readonly found = new Map<object, ImportPlace>();
  readonly problems: ImportProblem[] = [];
  readonly ids = new IdBook();
}
