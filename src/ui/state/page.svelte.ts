/** The pages of the screen: the harness with its questions, data in and out, a job, training. */
export type PageName = "harness" | "data" | "job" | "practice";

const NAMES: readonly PageName[] = ["harness", "data", "job", "practice"];

/** Which page is shown. It is written in the address behind the number sign: `#job/a1b2` is the page "job" at the place "a1b2". */
export class ShownPage {
  name = $state<PageName>("harness");
  /** What of the page is meant, such as the id of a job; empty where nothing is. */
  place = $state("");

  /** Goes to a page; the way back of the browser leads to the one before. */
  open(name: PageName, place = ""): void {
    if (this.name === name && this.place === place) return;
    const hash = name === "harness" ? "" : `#${name}${place === "" ? "" : `/${encodeURIComponent(place)}`}`;
    window.history.pushState(null, "", window.location.pathname + window.location.search + hash);
    this.name = name;
    this.place = place;
  }

  /** Follows the address, after a person went back or forward and at the start. */
  readAddress(): void {
    const [name = "", place = ""] = window.location.hash.slice(1).split("/");
    this.name = NAMES.find((each) => each === name) ?? "harness";
    this.place = readPart(place);
  }
}

function readPart(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    // A link that was cut in the middle of a sign.
    return "";
  }
}

/** The one page that is shown. */
export const page = new ShownPage();
