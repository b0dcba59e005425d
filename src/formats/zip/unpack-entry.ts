import { Inflate } from "fflate";
import { err, ok, type Result } from "../../base/index.ts";
import { importProblem, type ImportProblem } from "../import-problem.ts";
import { crc32 } from "./crc32.ts";
import type { ZipEntry } from "./zip-directory.ts";

/** Packed bytes unpacked at a time: at most about a thousand times as many come out before the size is looked at again. */
const PIECE_BYTES = 4096;

/**
 * Unpacks one entry of a zip file, never further than the size its directory claims, and checks its size and check sum.
 *
 * @param bytes The whole zip file.
 * @param entry The entry, from `readZipDirectory`.
 */
export function unpackEntry(bytes: Uint8Array, entry: ZipEntry): Result<Uint8Array, ImportProblem> {
  const packed = bytes.subarray(entry.start, entry.start + entry.packedBytes);
  if (entry.method === "stored") return judge(entry, packed);
  const unpacked = new Uint8Array(entry.unpackedBytes);
  const state = { end: 0, isOver: false };
  const inflate = new Inflate((piece) => {
    if (state.end + piece.length > unpacked.length) state.isOver = true;
    else unpacked.set(piece, state.end);
    state.end += piece.length;
  });
  try {
    for (let at = 0; at < packed.length && !state.isOver; at += PIECE_BYTES) {
      inflate.push(packed.subarray(at, at + PIECE_BYTES), at + PIECE_BYTES >= packed.length);
    }
  } catch (fault) {
    const reason = fault instanceof Error ? fault.message : "unreadable";
    return broken(entry, `cannot be unpacked (${reason})`);
  }
  if (state.isOver) return broken(entry, `holds more than the ${entry.unpackedBytes} bytes it claims`);
  return judge(entry, unpacked.subarray(0, state.end));
}

function judge(entry: ZipEntry, unpacked: Uint8Array): Result<Uint8Array, ImportProblem> {
  if (unpacked.length !== entry.unpackedBytes) {
    return broken(entry, `holds ${unpacked.length} bytes and claims ${entry.unpackedBytes}`);
  }
  if (crc32(unpacked) !== entry.crc) return broken(entry, "has a wrong check sum");
  return ok(unpacked);
}

function broken(entry: ZipEntry, what: string): Result<never, ImportProblem> {
  return err(importProblem("zip-broken", { file: entry.name }, { reason: `"${entry.name}" ${what}` }));
}
