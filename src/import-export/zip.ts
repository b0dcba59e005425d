import { defined, err, ok, type Result } from "../base/index.ts";
import { importProblem, type ImportProblem } from "./import-problem.ts";
import { decodeUtf8 } from "./text.ts";
import { Inflate, zipSync, type Zippable } from "fflate";

/** One entry of a zip file, as its directory tells. Sizes in bytes; they are claims until the entry has been unpacked. */
export interface ZipEntry {
  readonly name: string;
  readonly method: "stored" | "deflate";
  readonly packedBytes: number;
  readonly unpackedBytes: number;
  readonly crc: number;
  /** Where the packed bytes start. */
  readonly start: number;
}

/** Caps on what a zip file may claim. */
interface ZipLimits {
  readonly mostEntries: number;
  /** Most bytes that all entries together may have, unpacked. */
  readonly mostBytes: number;
}

/** The usual caps: far above any workbook of wiring tables. */
const ZIP_LIMITS: ZipLimits = { mostEntries: 2000, mostBytes: 256 * 1024 * 1024 };

const END_BYTES = 22;
const ENTRY_BYTES = 46;
const LOCAL_BYTES = 30;

/**
 * Reads the directory of a zip file and judges it before anything is unpacked: names that lead out of the archive, names used twice,
 * entries that lie over one another, sizes beyond the caps, encryption and methods other than deflate are all refused.
 *
 * Source: zip file format as described in ISO/IEC 21320-1, which is the part of it that office files may use.
 */
export function readZipDirectory(
  bytes: Uint8Array,
  limits: ZipLimits = ZIP_LIMITS,
): Result<ReadonlyMap<string, ZipEntry>, ImportProblem> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  if (end === undefined) return broken("its directory is missing; the file was cut off");
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  if (count === 0xffff || at === 0xffffffff) return broken("it is of the large kind (zip64)");
  if (count > limits.mostEntries) return broken(`it has ${count} entries, more than ${limits.mostEntries}`);
  const entries = new Map<string, ZipEntry>();
  let unpacked = 0;
  for (let number = 0; number < count; number++) {
    const read = readEntry(bytes, view, at);
    if (!read.ok) return read;
    const { entry, next } = read.value;
    at = next;
    if (entries.has(entry.name)) return broken(`it holds "${entry.name}" twice`);
    unpacked += entry.unpackedBytes;
    if (unpacked > limits.mostBytes)
      return err(importProblem("zip-too-large", { file: entry.name }, { bytes: unpacked, limit: limits.mostBytes }));
    entries.set(entry.name, entry);
  }
  return overlap(entries) ?? ok(entries);
}

function findEnd(view: DataView): number | undefined {
  const least = Math.max(0, view.byteLength - END_BYTES - 0xffff);
  for (let at = view.byteLength - END_BYTES; at >= least; at--) {
    if (view.getUint32(at, true) === 0x06054b50) return at;
  }
  return undefined;
}

function readEntry(
  bytes: Uint8Array,
  view: DataView,
  at: number,
): Result<{ entry: ZipEntry; next: number }, ImportProblem> {
  if (at + ENTRY_BYTES > view.byteLength || view.getUint32(at, true) !== 0x02014b50)
    return broken("its directory is damaged");
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  const crc = view.getUint32(at + 16, true);
  const packedBytes = view.getUint32(at + 20, true);
  const unpackedBytes = view.getUint32(at + 24, true);
  const nameBytes = view.getUint16(at + 28, true);
  const next = at + ENTRY_BYTES + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  const local = view.getUint32(at + 42, true);
  const rawName = bytes.subarray(at + ENTRY_BYTES, at + ENTRY_BYTES + nameBytes);
  const name = decodeUtf8(rawName) ?? String.fromCharCode(...rawName);
  if (leadsOut(name)) return err(importProblem("zip-path", {}, { name: name.slice(0, 120) }));
  if (flags & 1) return err(importProblem("zip-encrypted", { file: name }, { name }));
  if (method !== 0 && method !== 8) return broken(`"${name}" is packed by method ${method}`);
  if ([packedBytes, unpackedBytes, local].includes(0xffffffff)) return broken("it is of the large kind (zip64)");
  if (local + LOCAL_BYTES > view.byteLength || view.getUint32(local, true) !== 0x04034b50)
    return broken(`the start of "${name}" is missing`);
  const start = local + LOCAL_BYTES + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  if (start + packedBytes > view.byteLength) return broken(`"${name}" is cut off`);
  const entry: ZipEntry = { name, method: method === 0 ? "stored" : "deflate", packedBytes, unpackedBytes, crc, start };
  return ok({ entry, next });
}

/** Nothing is ever written to disk here, but an archive with such names was made to do harm or is damaged. */
function leadsOut(name: string): boolean {
  return name === "" || /^\/|^[A-Za-z]:|\\/u.test(name) || name.includes("\0") || name.split("/").includes("..");
}

/** Entries that share packed bytes unpack to far more than the file could hold. */
function overlap(entries: ReadonlyMap<string, ZipEntry>): Result<never, ImportProblem> | undefined {
  const sorted = [...entries.values()].sort((first, second) => first.start - second.start);
  let end = 0;
  for (const entry of sorted) {
    if (entry.start < end) return broken(`"${entry.name}" lies over another entry`);
    end = entry.start + entry.packedBytes;
  }
  return undefined;
}

function broken(reason: string, file?: string): Result<never, ImportProblem> {
  return err(importProblem("zip-broken", defined({ file }), { reason }));
}

function brokenEntry({ name }: ZipEntry, what: string): Result<never, ImportProblem> {
  return broken(`"${name}" ${what}`, name);
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/**
 * The check sum of a zip entry.
 *
 * @param before The check sum of what came before them; 0 at the start.
 *
 * Source: CRC-32 of ISO 3309, as used by zip files.
 */
function crc32(bytes: Uint8Array, before = 0): number {
  let rest = ~before;
  for (const byte of bytes) rest = (TABLE[(rest ^ byte) & 0xff] ?? 0) ^ (rest >>> 8);
  return ~rest >>> 0;
}

/** Packed bytes unpacked at a time: at most about a thousand times as many come out before the size is looked at again. */
const PIECE_BYTES = 4096;

/**
 * Unpacks one entry of a zip file, never further than the size its directory claims, and checks its size and check sum.
 *
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
    return brokenEntry(entry, `cannot be unpacked (${reason})`);
  }
  if (state.isOver) return brokenEntry(entry, `holds more than the ${entry.unpackedBytes} bytes it claims`);
  return judge(entry, unpacked.subarray(0, state.end));
}

function judge(entry: ZipEntry, unpacked: Uint8Array): Result<Uint8Array, ImportProblem> {
  if (unpacked.length !== entry.unpackedBytes) {
    return brokenEntry(entry, `holds ${unpacked.length} bytes and claims ${entry.unpackedBytes}`);
  }
  if (crc32(unpacked) !== entry.crc) return brokenEntry(entry, "has a wrong check sum");
  return ok(unpacked);
}

/** The time written into every entry, so that the same tables give the same bytes: the first a zip file can hold. */
const NO_TIME = new Date(1980, 0, 1);

/**
 * Packs files into a zip file. The same files in the same order give the same bytes.
 *
 * @param files Names and contents, in order.
 */
export function writeZip(files: readonly (readonly [name: string, bytes: Uint8Array])[]): Uint8Array {
  // The names are those of this program's own tables, never taken from a file.
  const entries: Zippable = Object.fromEntries(files);
  return zipSync(entries, { mtime: NO_TIME, level: 6 });
}
